import { useState } from 'preact/hooks';
import type { Option } from '../../assessment.ts';
import { type Manner, sayDays, sayMoney, sayPercent } from '../words.ts';

interface Props {
  readonly options: readonly Option[];
  readonly advised: string;
  readonly horizonDays: number;
  readonly manner: Manner;
}

const SHOWN = 6;

/** Who is paid only for cards that work cannot price work that hardly ever does: the figure would run away. */
const LEAST_CHANCE_PRICED = 0.02;
const floorShown = (option: Option): number | null => (option.works < LEAST_CHANCE_PRICED ? null : option.floor);

/** Every way to go on, side by side; on a narrow screen each becomes a card. */
export function OptionsTable({ options, advised, horizonDays, manner }: Props) {
  const [all, setAll] = useState(false);
  const shown = all ? options : options.filter((option, index) => index < SHOWN || option.id === advised);
  const money = (amount: number | null) =>
    amount === null ? <span class="none">none</span> : sayMoney(amount, manner);
  return (
    <div class="options">
      <table>
        <caption class="visually-hidden">Options compared</caption>
        <thead>
          <tr>
            <th scope="col">Option</th>
            <th scope="col">Works</th>
            <th scope="col">Holds {sayDays(horizonDays)}</th>
            <th scope="col">Costs</th>
            <th scope="col">Bench needs</th>
            <th scope="col">Owner's most</th>
            <th scope="col">Surplus</th>
            <th scope="col">Justified</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((option) => (
            <tr key={option.id} data-advised={option.id === advised}>
              <th scope="row">
                {option.name}
                {option.id === advised && <small class="advised"> advised</small>}
              </th>
              <td class="number" data-label="Works">
                {sayPercent(option.works)}
              </td>
              <td class="number" data-label={`Holds ${sayDays(horizonDays)}`}>
                {sayPercent(option.holds)}
              </td>
              <td class="number" data-label="Costs">
                {money(option.cost.total)}
              </td>
              <td class="number" data-label="Bench needs">
                {money(floorShown(option))}
              </td>
              <td class="number" data-label="Owner's most">
                {money(option.floor === null || option.ceiling === null ? null : Math.max(0, option.ceiling))}
              </td>
              <td class="number" data-label="Surplus">
                {money(option.surplus)}
              </td>
              <td data-label="Justified">{option.justified ? 'yes' : 'no'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {options.length > shown.length && (
        <button type="button" class="quiet" onClick={() => setAll(true)}>
          Show all {options.length} options
        </button>
      )}
    </div>
  );
}

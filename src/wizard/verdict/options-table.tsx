import { useState } from 'preact/hooks';
import type { Option } from '../../assessment.ts';
import { LockMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import type { Messages } from '../messages/en.ts';
import { type Manner, sayDays, sayMinutes, sayMoney, sayNumber, sayPercent } from '../words.ts';
import { StampOf } from './stamp.tsx';

interface Props {
  readonly options: readonly Option[];
  readonly advised: string;
  readonly horizonDays: number;
  readonly manner: Manner;
}

const SHOWN = 6;
const SHOWN_NARROW = 3;
const NARROW = '(max-width: 47.99em)';

/** Who is paid only for cards that work cannot price work that hardly ever does: the figure would run away. */
const LEAST_CHANCE_PRICED = 0.02;
const floorShown = (option: Option): number | null => (option.works < LEAST_CHANCE_PRICED ? null : option.floor);

/** Every way to go on, side by side; on a narrow screen each becomes a card. */
export function OptionsTable({ options, advised, horizonDays, manner }: Props) {
  const [all, setAll] = useState(false);
  const [most] = useState(() => (matchMedia(NARROW).matches ? SHOWN_NARROW : SHOWN));
  const words = messages.value.options;
  const shown = all ? options : options.filter((option, index) => index < most || option.id === advised);
  const holds = words.holds(sayDays(horizonDays));
  const money = (amount: number | null) =>
    amount === null ? <span class="none">{words.none}</span> : sayMoney(amount, manner);
  return (
    <div class="options">
      <table>
        <caption class="visually-hidden">{words.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{words.option}</th>
            <th scope="col">{words.works}</th>
            <th scope="col">{holds}</th>
            <th scope="col">{words.costs}</th>
            <th scope="col">{words.benchNeeds}</th>
            <th scope="col">{words.ownersMost}</th>
            <th scope="col">{words.surplus}</th>
            <th scope="col">{words.justified}</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((option) => (
            <tr key={option.id} data-advised={option.id === advised} data-waits={option.waitsFor !== undefined}>
              <th scope="row">
                {option.name}
                {option.id === advised && <small class="advised"> {words.advised}</small>}
                <small class="option-effort">
                  <StampOf verdict={option.verdict} /> {sayMinutes(option.minutes)}
                  {option.heatCycles > 0 &&
                    `, ${words.heat(sayNumber(option.heatCycles, { maximumFractionDigits: 1 }))}`}
                </small>
                {option.outdoneBy !== undefined && (
                  <small class="option-outdone">{words.outdone(option.outdoneBy)}</small>
                )}
                {option.waitsFor !== undefined && (
                  <small class="option-waits">
                    <LockMark /> {words.waitsFor(option.waitsFor.join(', '))}
                  </small>
                )}
              </th>
              <td class="number" data-label={words.works}>
                {sayPercent(option.works)}
                <Share of={option.works} />
              </td>
              <td class="number" data-label={holds}>
                {sayPercent(option.holds)}
                <Share of={option.holds} />
              </td>
              <td class="number" data-label={words.costs}>
                {money(option.cost.total)}
              </td>
              <td class="number" data-label={words.benchNeeds}>
                {money(floorShown(option))}
              </td>
              <td class="number" data-label={words.ownersMost}>
                {money(option.floor === null || option.ceiling === null ? null : Math.max(0, option.ceiling))}
              </td>
              <td class="number" data-label={words.surplus}>
                {money(option.surplus)}
              </td>
              <td data-label={words.justified}>{standing(option, words)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {options.length > shown.length && (
        <button type="button" class="quiet" onClick={() => setAll(true)}>
          {words.showAll(options.length)}
        </button>
      )}
    </div>
  );
}

function standing(option: Option, words: Messages['options']): string {
  if (option.waitsFor !== undefined) return words.waits;
  if (!option.justified) return words.no;
  return option.mendsTooLittle ? words.mendsTooLittle : words.yes;
}

/** Repeats the figure above it. */
function Share({ of }: { of: number }) {
  return (
    <span class="share-bar" aria-hidden="true">
      <span style={{ width: `${100 * of}%` }} />
    </span>
  );
}

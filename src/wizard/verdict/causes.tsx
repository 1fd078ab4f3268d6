import type { Assessed, RankedFault } from '../../assessment.ts';
import { ChanceBar } from '../card/chance-bar.tsx';
import type { Catalogue } from '../catalogue.ts';
import { sayDecibels, sayPercent, sayWeight } from '../words.ts';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

const SHOWN = 8;

/** Ranked causes, each with what speaks for and against it. */
export function Causes({ assessed, catalogue }: Props) {
  return (
    <ol class="causes">
      {assessed.ranking.slice(0, SHOWN).map((cause, index) => (
        <li key={cause.fault}>
          <Cause
            cause={cause}
            about={catalogue.faults.find(({ id }) => id === cause.fault)?.about}
            open={index === 0}
          />
        </li>
      ))}
    </ol>
  );
}

function Cause({ cause, about, open }: { cause: RankedFault; about: string | undefined; open: boolean }) {
  const telling = cause.evidence.filter(({ decibels }) => Math.abs(decibels) >= 0.5);
  return (
    <details open={open}>
      <summary>
        <span class="cause-name">{cause.name}</span>
        <span class="cause-chance">
          {sayPercent(cause.chance)}
          {cause.interval && (
            <small>
              {' '}
              {sayPercent(cause.interval.low)} to {sayPercent(cause.interval.high)}
            </small>
          )}
        </span>
        <ChanceBar chance={cause.chance} before={cause.before} />
      </summary>
      {about && <p class="about">{about}</p>}
      <p class="from-history">{sayPercent(cause.before)} from its class and history alone.</p>
      {telling.length > 0 ? (
        <table class="weights">
          <caption class="visually-hidden">Evidence for and against {cause.name}</caption>
          <thead>
            <tr>
              <th scope="col">Found</th>
              <th scope="col">Speaks</th>
              <th scope="col" class="number">
                Weight
              </th>
            </tr>
          </thead>
          <tbody>
            {telling.map((item) => (
              <tr key={item.finding} data-side={item.decibels > 0 ? 'for' : 'against'}>
                <th scope="row">
                  {item.name}: {item.stateName}
                </th>
                <td>{sayWeight(item.decibels)}</td>
                <td class="number">{sayDecibels(item.decibels)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        <p>Nothing found so far speaks for or against it.</p>
      )}
    </details>
  );
}

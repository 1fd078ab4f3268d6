/** What speaks for a cause and what against it, in words and in decibels, on one scale with nothing in the middle. */
import type { RankedFault } from '../../assessment.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { sayDecibels, sayNumber, sayWeight } from '../words.ts';

/** Less than this says nothing to anybody. */
const LEAST_DECIBELS = 0.5;
/** Half of the scale is at least this, so that a hint does not look like proof, */
const LEAST_FULL_DECIBELS = 8;
/** and at most this: proof beyond it is proof enough. */
const MOST_FULL_DECIBELS = 20;

export const tellingEvidence = (cause: RankedFault): RankedFault['evidence'] =>
  cause.evidence.filter(({ decibels }) => Math.abs(decibels) >= LEAST_DECIBELS);

/** As odds: 10^(dB / 10), or how many times less. */
function sayOdds(decibels: number): string {
  const times = 10 ** (decibels / 10);
  return sayNumber(times, { maximumSignificantDigits: 2 });
}

export function Evidence({ cause, short }: { readonly cause: RankedFault; readonly short?: boolean }) {
  const { evidence, wavering } = messages.value;
  const { assessment } = useSession().adviser.advice.value;
  const wavers = new Set(
    assessment?.kind === 'assessed'
      ? assessment.evidence.flatMap(({ finding, contradicts }) => (contradicts === undefined ? [] : [finding]))
      : [],
  );
  const telling = tellingEvidence(cause);
  if (telling.length === 0)
    return <p class="no-evidence">{short === true ? evidence.nothingShort : evidence.nothing}</p>;
  const strongest = Math.max(...telling.map(({ decibels }) => Math.abs(decibels)));
  const full = Math.min(MOST_FULL_DECIBELS, Math.max(LEAST_FULL_DECIBELS, strongest));
  return (
    <table class="weights" data-short={short === true}>
      <caption class="visually-hidden">{evidence.caption(cause.name)}</caption>
      <thead>
        <tr>
          <th scope="col">{evidence.found}</th>
          <th scope="col">{evidence.speaks}</th>
          <th scope="col" class="number">
            {evidence.weight}
          </th>
        </tr>
      </thead>
      <tbody>
        {telling.map((item) => (
          <tr key={item.finding} data-side={item.decibels > 0 ? 'for' : 'against'}>
            <th scope="row">
              {item.name}: <b>{item.stateName}</b>
              {wavers.has(item.finding) && <small class="wavers">{wavering.wavers}</small>}
            </th>
            <td class="weight-words">
              <WeightBar decibels={item.decibels} full={full} />
              {sayWeight(item.decibels)}
            </td>
            <td class="number">
              {sayDecibels(item.decibels)}
              <small>{evidence.odds(sayOdds(item.decibels))}</small>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function WeightBar({ decibels, full }: { decibels: number; full: number }) {
  const half = (50 * Math.min(Math.abs(decibels), full)) / full;
  return (
    <span class="weight-bar" aria-hidden="true">
      <span style={{ left: `${decibels > 0 ? 50 : 50 - half}%`, width: `${half}%` }} />
    </span>
  );
}

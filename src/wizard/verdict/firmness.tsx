import type { Assessed, Sensitivity } from '../../assessment.ts';
import { useSession } from '../session.ts';
import { type Manner, sayMoney, sayPercent, sayVerdict } from '../words.ts';

/** How firm the verdict is: against the figures it rests on, and against a better plan. */
export function Firmness({ assessed, manner }: { readonly assessed: Assessed; readonly manner: Manner }) {
  const drawn = useSession().adviser.advice.value.draws;
  return (
    <>
      {assessed.sensitivity === undefined && drawn === 0 && (
        <p class="waiting">Shaking the figures to see whether the verdict stands …</p>
      )}
      {assessed.sensitivity !== undefined && (
        <Shaken sensitivity={assessed.sensitivity} kind={assessed.verdict.kind} manner={manner} />
      )}
      <Certificate assessed={assessed} manner={manner} />
    </>
  );
}

function Shaken({
  sensitivity,
  kind,
  manner,
}: {
  sensitivity: Sensitivity;
  kind: Assessed['verdict']['kind'];
  manner: Manner;
}) {
  const others = sensitivity.winners.filter(({ verdict, share }) => verdict !== kind && share >= 0.01);
  const amounts = sensitivity.tornado.flatMap(({ atLow, atHigh }) => [atLow, atHigh]);
  const [least, most] = [Math.min(...amounts), Math.max(...amounts)];
  const at = (amount: number) => (100 * (amount - least)) / (most - least || 1);
  return (
    <>
      <p>
        With every chance and price redrawn within its own uncertainty, the verdict stands in{' '}
        <b>{Math.round(100 * sensitivity.stands)} of 100</b> tries
        {others.length > 0 &&
          `; else it is ${others.map(({ verdict, share }) => `${sayVerdict(verdict).toLowerCase()} (${sayPercent(share)})`).join(', ')}`}
        .
      </p>
      {sensitivity.tornado.length > 0 && (
        <table class="tornado">
          <caption>What moves the surplus most</caption>
          <thead>
            <tr>
              <th scope="col">If this is</th>
              <th scope="col">at its low end</th>
              <th scope="col">at its high end</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {sensitivity.tornado.slice(0, 8).map((input) => {
              const [left, right] = [at(Math.min(input.atLow, input.atHigh)), at(Math.max(input.atLow, input.atHigh))];
              return (
                <tr key={input.input}>
                  <th scope="row">{input.name}</th>
                  <td class="number" data-label="at its low end">
                    {sayMoney(input.atLow, manner)}
                  </td>
                  <td class="number" data-label="at its high end">
                    {sayMoney(input.atHigh, manner)}
                  </td>
                  <td class="tornado-bar" aria-hidden="true">
                    <span style={{ left: `${left}%`, width: `${Math.max(1, right - left)}%` }} />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </>
  );
}

function Certificate({ assessed, manner }: { assessed: Assessed; manner: Manner }) {
  const { method, now, value, upperBound, coverage } = assessed.certificate;
  const gap = Math.max(0, upperBound - value);
  return (
    <p class="certificate">
      Deciding now leaves {sayMoney(now, manner)} on average; the plan advised here {sayMoney(value, manner)}.{' '}
      {method === 'exact'
        ? 'Every plan was weighed: none does better.'
        : `No plan at all could do better than ${sayMoney(upperBound, manner)}, so at most ${sayMoney(gap, manner)} is missed.`}{' '}
      The planner looked at {sayPercent(coverage)} of what the card may have.
    </p>
  );
}

import type { Assessed } from '../../assessment.ts';
import { jumpTo } from '../frame/jump.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { type Manner, sayDays, sayFrequency, sayMoney, unbroken } from '../words.ts';
import { HundredCards } from './hundred.tsx';
import { PriceLine } from './price-line.tsx';
import { isFirm, Stamp } from './stamp.tsx';

interface Props {
  readonly assessed: Assessed;
  readonly manner: Manner;
}

/** The verdict with its chances, its price line and its reasons: what would be written on the job ticket. */
export function VerdictTicket({ assessed, manner }: Props) {
  const { verdict: words } = messages.value;
  const { verdict } = assessed;
  const option = assessed.options.find(({ id }) => id === verdict.option);
  const works = option !== undefined && (option.floor !== null || option.works > 0);
  return (
    <section class="verdict">
      <p class="verdict-head">
        <Stamp assessed={assessed} />
        <span class="verdict-name">{verdict.name}</span>
      </p>
      {!isFirm(assessed) && <StillWorthIt assessed={assessed} />}
      <p class="lead">{unbroken(verdict.because)}</p>
      {option !== undefined && (
        <dl class="figures">
          {works && (
            <>
              <div>
                <dt>{words.works}</dt>
                <dd>{sayFrequency(option.works)}</dd>
              </div>
              <div>
                <dt>{words.holds(sayDays(assessed.horizonDays))}</dt>
                <dd>{sayFrequency(option.holds)}</dd>
              </div>
            </>
          )}
          <div>
            <dt>{words.costs}</dt>
            <dd>{sayMoney(option.cost.total, manner)}</dd>
          </div>
          <div>
            <dt>{words.surplus}</dt>
            <dd>{sayMoney(option.surplus, manner)}</dd>
          </div>
        </dl>
      )}
      {option !== undefined && (
        <div class="verdict-pictures">
          <PriceLine option={option} manner={manner} working={assessed.whatIf?.money.working} />
          {works && <HundredCards option={option} horizonDays={assessed.horizonDays} />}
        </div>
      )}
      {verdict.reasons.length > 0 && (
        <ul class="reasons">
          {verdict.reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function StillWorthIt({ assessed }: { assessed: Assessed }) {
  const session = useSession();
  const { next } = assessed;
  if (next.kind === 'act') return null;
  const name = assessed.checks.find(({ check }) => check === next.check)?.name ?? next.check;
  return (
    <p class="pencilled">
      {messages.value.verdict.pencilled}{' '}
      <button type="button" class="quiet" onClick={() => jumpTo(session, 'next')}>
        {name}
      </button>
    </p>
  );
}

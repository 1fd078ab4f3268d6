import type { Assessed } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { CautionMark, LockMark } from '../frame/marks.tsx';
import { useSession } from '../session.ts';
import { findingKey, stepOf } from '../steps.ts';
import { capital, type Manner, sayDays, sayFrequency, sayMoney } from '../words.ts';
import { Causes } from './causes.tsx';
import { Firmness } from './firmness.tsx';
import { MoneyFields } from './money-fields.tsx';
import { OptionsTable } from './options-table.tsx';
import { PriceLine } from './price-line.tsx';
import { isFirm, Stamp } from './stamp.tsx';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

/** From this much on (bits of conflict) the findings are said to disagree. */
const STRAIN_SHOWN = 3;

export function VerdictScreen({ assessed, catalogue }: Props) {
  const manner: Manner = { locale: catalogue.shop.locale, currency: assessed.currency };
  const { verdict } = assessed;
  const option = assessed.options.find(({ id }) => id === verdict.option);
  const used = new Set(
    assessed.options.flatMap(({ steps }) =>
      steps.flatMap((step) => catalogue.remedies.find(({ id }) => id === step)?.parts ?? []),
    ),
  );
  return (
    <>
      <section class="verdict">
        <p class="verdict-head">
          <Stamp assessed={assessed} />
          <span class="verdict-name">{verdict.name}</span>
        </p>
        {!isFirm(assessed) && <StillWorthIt assessed={assessed} />}
        <p class="lead">{verdict.because}</p>
        {option !== undefined && (
          <dl class="figures">
            {option.floor !== null && (
              <>
                <div>
                  <dt>works</dt>
                  <dd>{sayFrequency(option.works)}</dd>
                </div>
                <div>
                  <dt>holds {sayDays(assessed.horizonDays)}</dt>
                  <dd>{sayFrequency(option.holds)}</dd>
                </div>
              </>
            )}
            <div>
              <dt>costs the bench</dt>
              <dd>{sayMoney(option.cost.total, manner)}</dd>
            </div>
            <div>
              <dt>surplus</dt>
              <dd>{sayMoney(option.surplus, manner)}</dd>
            </div>
          </dl>
        )}
        {option !== undefined && <PriceLine option={option} manner={manner} />}
        {verdict.reasons.length > 0 && (
          <ul class="reasons">
            {verdict.reasons.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
        )}
      </section>
      {assessed.strain.bits >= STRAIN_SHOWN && <Strain assessed={assessed} catalogue={catalogue} />}
      <section>
        <h2>The options side by side</h2>
        <OptionsTable
          options={assessed.options}
          advised={verdict.option}
          horizonDays={assessed.horizonDays}
          manner={manner}
        />
      </section>
      <section>
        <h2>The money</h2>
        <MoneyFields shop={catalogue.shop} at="verdict" parts={catalogue.parts.filter(({ id }) => used.has(id))} />
      </section>
      {verdict.breakEvens.length > 0 && (
        <section>
          <h2>What would change it</h2>
          <ul class="break-evens">
            {verdict.breakEvens.map((breakEven) => (
              <li key={breakEven.what}>{breakEven.sentence}</li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h2>Likely causes, and why</h2>
        <Causes assessed={assessed} catalogue={catalogue} />
        <Inseparable assessed={assessed} catalogue={catalogue} />
      </section>
      <section>
        <h2>How firm it is</h2>
        <Firmness assessed={assessed} manner={manner} />
      </section>
      <Closed assessed={assessed} />
      {assessed.cautions.length > 0 && (
        <section>
          <h2>Take care</h2>
          <ul class="cautions">
            {assessed.cautions.map((caution) => (
              <li key={caution.id}>
                <CautionMark /> {caution.text}
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function StillWorthIt({ assessed }: { assessed: Assessed }) {
  const session = useSession();
  const { next } = assessed;
  if (next.kind === 'act') return null;
  const name = assessed.checks.find(({ check }) => check === next.check)?.name ?? next.check;
  return (
    <p class="pencilled">
      In pencil: this is what to do if you had to decide now. One check is still worth its minutes:{' '}
      <button type="button" class="quiet" onClick={() => jumpTo(session, 'next')}>
        {name}
      </button>
    </p>
  );
}

function Strain({ assessed, catalogue }: Props) {
  const session = useSession();
  return (
    <section class="notice">
      <h2>
        <CautionMark /> The findings sit badly together
      </h2>
      <p>Together they are rarer than each alone would make one think. A second look is cheap:</p>
      <ul class="jumps">
        {assessed.strain.against.slice(0, 4).map(({ finding, name }) => {
          const view = catalogue.findings.find(({ id }) => id === finding);
          return (
            view !== undefined && (
              <li key={finding}>
                <button type="button" onClick={() => jumpTo(session, stepOf(view), findingKey(finding))}>
                  Look again: {name}
                </button>
              </li>
            )
          );
        })}
      </ul>
    </section>
  );
}

function Inseparable({ assessed, catalogue }: Props) {
  if (assessed.inseparable.length === 0) return null;
  const fault = (id: string) => catalogue.faults.find((one) => one.id === id)?.name ?? id;
  return (
    <div class="inseparable">
      <h3>Not told apart yet</h3>
      <ul>
        {assessed.inseparable.slice(0, 5).map(({ faults: [one, other], check }) => (
          <li key={`${one} ${other}`}>
            {capital(fault(one))} and {fault(other).toLowerCase()}
            {check === null
              ? ': no check here separates them.'
              : `: ${catalogue.checks.find(({ id }) => id === check)?.name.toLowerCase() ?? check} would.`}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Closed({ assessed }: { assessed: Assessed }) {
  if (assessed.closedRemedies.length === 0) return null;
  return (
    <section>
      <h2>Not open on this card</h2>
      <ul class="closed">
        {assessed.closedRemedies.map((remedy) => (
          <li key={remedy.id}>
            <LockMark /> <b>{remedy.name}</b>: {remedy.reasons.join(' ')}
          </li>
        ))}
      </ul>
    </section>
  );
}

import type { Assessed } from '../../assessment.ts';
import { byReason } from '../card/by-reason.ts';
import { ComesAndGoes } from '../card/comes-and-goes.tsx';
import type { Catalogue } from '../catalogue.ts';
import { CautionMark, LockMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import type { Manner } from '../words.ts';
import { Causes, Inseparable } from './causes.tsx';
import { Firmness } from './firmness.tsx';
import { MoneyFields } from './money-fields.tsx';
import { OptionsTable } from './options-table.tsx';
import { Strain } from './strain.tsx';
import { VerdictTicket } from './verdict-ticket.tsx';
import { WhatIfOtherwise } from './what-if.tsx';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

/** From this much on (bits of conflict) the findings are said to disagree. */
const STRAIN_SHOWN = 3;

export function VerdictScreen({ assessed, catalogue }: Props) {
  const manner: Manner = { locale: catalogue.shop.locale, currency: assessed.currency };
  const { verdict: words } = messages.value;
  const { verdict, whatIf } = assessed;
  const used = new Set(
    assessed.options.flatMap(({ steps }) =>
      steps.flatMap((step) => catalogue.remedies.find(({ id }) => id === step)?.parts ?? []),
    ),
  );
  return (
    <>
      <VerdictTicket assessed={assessed} manner={manner} />
      {assessed.strain.bits >= STRAIN_SHOWN && <Strain assessed={assessed} catalogue={catalogue} />}
      <section>
        <h2>{words.options}</h2>
        <OptionsTable
          options={assessed.options}
          advised={verdict.option}
          horizonDays={assessed.horizonDays}
          manner={manner}
        />
      </section>
      {whatIf !== undefined && (
        <WhatIfOtherwise whatIf={whatIf} verdict={verdict} shop={catalogue.shop} manner={manner} />
      )}
      <section>
        <h2>{words.money}</h2>
        <MoneyFields shop={catalogue.shop} at="verdict" parts={catalogue.parts.filter(({ id }) => used.has(id))} />
      </section>
      <section>
        <h2>{words.causes}</h2>
        <ComesAndGoes evidence={assessed.evidence} catalogue={catalogue} />
        <Causes assessed={assessed} catalogue={catalogue} />
        <Inseparable assessed={assessed} catalogue={catalogue} />
      </section>
      <section>
        <h2>{words.firm}</h2>
        <Firmness assessed={assessed} manner={manner} />
      </section>
      <Closed assessed={assessed} />
      {assessed.cautions.length > 0 && (
        <section>
          <h2>{words.care}</h2>
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

/** Closed remedies under the reasons they share, each said once. */
function Closed({ assessed }: { assessed: Assessed }) {
  if (assessed.closedRemedies.length === 0) return null;
  return (
    <section>
      <h2>{messages.value.verdict.closed}</h2>
      <ul class="closed">
        {byReason(assessed.closedRemedies).map(({ reason, names }) => (
          <li key={reason}>
            <LockMark /> <b>{names.join(' · ')}</b>: {reason}
          </li>
        ))}
      </ul>
    </section>
  );
}

import type { Assessed } from '../../assessment.ts';
import { byReason } from '../card/by-reason.ts';
import { ComesAndGoes } from '../card/comes-and-goes.tsx';
import type { Catalogue } from '../catalogue.ts';
import { Cautions } from '../frame/cautions.tsx';
import { Fold } from '../frame/fold.tsx';
import { LockMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import type { Manner } from '../words.ts';
import { ToWork } from '../work-order/to-work.tsx';
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
      <ToWork assessed={assessed} />
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
      <Fold heading={words.money}>
        <MoneyFields shop={catalogue.shop} at="verdict" parts={catalogue.parts.filter(({ id }) => used.has(id))} />
      </Fold>
      <section>
        <h2>{words.causes}</h2>
        <ComesAndGoes evidence={assessed.evidence} catalogue={catalogue} />
        <Causes assessed={assessed} catalogue={catalogue} />
        <Inseparable assessed={assessed} catalogue={catalogue} />
      </section>
      <Fold heading={words.firm}>
        <Firmness assessed={assessed} manner={manner} />
      </Fold>
      <Closed assessed={assessed} />
      {assessed.cautions.length > 0 && (
        <Fold heading={words.care} holds={String(assessed.cautions.length)}>
          <Cautions cautions={assessed.cautions} />
        </Fold>
      )}
    </>
  );
}

/** Closed remedies under the reasons they share, each said once. */
function Closed({ assessed }: { assessed: Assessed }) {
  if (assessed.closedRemedies.length === 0) return null;
  return (
    <Fold heading={messages.value.verdict.closed} holds={String(assessed.closedRemedies.length)}>
      <ul class="closed">
        {byReason(assessed.closedRemedies).map(({ reason, names }) => (
          <li key={reason}>
            <LockMark /> <b>{names.join(' · ')}</b>: {reason}
          </li>
        ))}
      </ul>
    </Fold>
  );
}

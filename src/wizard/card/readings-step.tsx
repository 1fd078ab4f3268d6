import { useState } from 'preact/hooks';
import type { Catalogue } from '../catalogue.ts';
import { findingAnswer } from '../desk.ts';
import { Marked } from '../frame/marked.tsx';
import { messages } from '../language.ts';
import { LeadsSetting } from '../questions/leads-setting.tsx';
import { MeterSetting } from '../questions/meter-setting.tsx';
import { ReadingsTable } from '../questions/readings-table.tsx';
import { isRail, railsOf } from '../rails.ts';
import { useSession } from '../session.ts';
import type { Section } from '../steps.ts';
import { ClosedGate } from './closed-gate.tsx';
import { HowTo } from './how-to.tsx';
import { gateOf } from './power.ts';
import { Questions } from './questions-step.tsx';

interface Props {
  readonly sections: readonly Section[];
  readonly catalogue: Catalogue;
}

/** All rails in one table; what belongs to the same procedures and is no rail comes below it. */
export function ReadingsStep({ sections, catalogue }: Props) {
  const { adviser, desk } = useSession();
  const [anyway, setAnyway] = useState(false);
  const { assessment } = adviser.advice.value;
  const questions = sections.flatMap((section) => section.questions);
  const findings = questions.flatMap((question) => (question.kind === 'finding' ? [question.finding] : []));
  const rest = questions.filter((question) => question.kind !== 'finding' || !isRail(question.finding));
  const powered = sections.find(({ check }) => check?.powers === true)?.check ?? null;
  const gate = gateOf(powered, assessment);
  const record = desk.value?.record;
  const written = findings.some(
    ({ id }) => id.startsWith('voltage-') && record !== undefined && findingAnswer(record, id, 'bench') !== undefined,
  );
  const open = gate.open || anyway || written;
  const evidence = assessment === null || assessment.kind === 'bad-record' ? [] : assessment.evidence;
  const windows = assessment === null || assessment.kind === 'bad-record' ? [] : assessment.windows;
  return (
    <>
      <p class="about">
        <Marked text={messages.value.readings.about} />
      </p>
      <div class="how-tos">
        {sections.map(
          ({ check }) =>
            check !== null && (
              <HowTo of={check} catalogue={catalogue} summary={messages.value.howTo.of(check.name)} key={check.id} />
            ),
        )}
      </div>
      <div class="taking">
        <MeterSetting usual={catalogue.shop.instruments.resistance} />
        <LeadsSetting shopLeads={catalogue.shop.leadResistance} />
      </div>
      {!open && <ClosedGate gate={gate} catalogue={catalogue} onAnyway={() => setAnyway(true)} />}
      <ReadingsTable
        rails={railsOf(findings)}
        windows={new Map(windows.map((window) => [window.finding, window]))}
        evidence={new Map(evidence.map((item) => [item.finding, item]))}
        voltagesOpen={open}
      />
      <Questions questions={rest} disabled={!open} />
    </>
  );
}

import { useState } from 'preact/hooks';
import type { CheckAdvice } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { findingAnswer } from '../desk.ts';
import { messages, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { isAnswered, type Section } from '../steps.ts';
import { type Manner, sayMinutes, sayMoney } from '../words.ts';
import { checkMinutes } from './check-minutes.ts';
import { ClosedGate } from './closed-gate.tsx';
import { HowTo } from './how-to.tsx';
import { gateOf } from './power.ts';
import { Questions } from './questions-step.tsx';

interface Props {
  readonly sections: readonly Section[];
  readonly catalogue: Catalogue;
}

/** One line a test; the advised one and those already answered stand open. */
export function TestsStep({ sections, catalogue }: Props) {
  const { adviser } = useSession();
  const { assessment } = adviser.advice.value;
  const advised = assessment?.kind === 'assessed' && assessment.next.kind === 'check' ? assessment.next.check : null;
  return (
    <div class="tests">
      {sections.map((section) => (
        <Test
          section={section}
          catalogue={catalogue}
          advised={section.check !== null && section.check.id === advised}
          key={section.check?.id ?? 'loose'}
        />
      ))}
    </div>
  );
}

interface TestProps {
  readonly section: Section;
  readonly catalogue: Catalogue;
  readonly advised: boolean;
}

function Test({ section, catalogue, advised }: TestProps) {
  const { adviser, desk } = useSession();
  const [anyway, setAnyway] = useState(false);
  const { check, questions } = section;
  const record = desk.value?.record;
  if (record === undefined) return null;
  if (check === null) return <Questions questions={questions} />;
  const { assessment } = adviser.advice.value;
  const gate = gateOf(check, assessment);
  const answered = questions.some((question) => isAnswered(record, question));
  const advice = assessment?.kind === 'assessed' ? assessment.checks.find((one) => one.check === check.id) : undefined;
  const said = questions.flatMap((question) => {
    const answer = question.kind === 'finding' ? findingAnswer(record, question.finding.id, 'bench') : undefined;
    if (question.kind !== 'finding' || answer === undefined) return [];
    if (answer.type === 'measured') return [answer.typed];
    return [
      question.finding.states.find(({ id }) => id === answer.state)?.name ?? messages.value.questions.cannotTellAnswer,
    ];
  });
  const manner: Manner = { locale: catalogue.shop.locale, currency: catalogue.shop.currency };
  return (
    <details class="test" open={advised || answered} data-closed={!gate.open}>
      <summary>
        <h2 lang={rulesLanguage.value}>{check.name}</h2>
        <span class="test-state" data-advised={advised}>
          {answered ? said.join(', ') : advised ? messages.value.tests.next : stateWords(gate.open, advice, manner)}
        </span>
        <small>{sayMinutes(checkMinutes(check, assessment))}</small>
      </summary>
      <p class="about" lang={rulesLanguage.value}>
        {check.purpose}
      </p>
      {gate.open || answered || anyway ? (
        <>
          <HowTo of={check} catalogue={catalogue} />
          <Questions questions={questions} />
        </>
      ) : (
        <ClosedGate gate={gate} catalogue={catalogue} onAnyway={() => setAnyway(true)} />
      )}
    </details>
  );
}

function stateWords(open: boolean, advice: CheckAdvice | undefined, manner: Manner): string {
  const { tests } = messages.value;
  if (!open) return tests.closed;
  switch (advice?.state) {
    case 'worth-it':
      return tests.worth(sayMoney(advice.worth, manner));
    case 'opens-others':
      return tests.opensOthers;
    case 'not-worth-its-minutes':
      return tests.notWorthIt;
    case 'cannot-change-the-decision':
      return tests.changesNothing;
    default:
      return '';
  }
}

import type { Catalogue } from '../catalogue.ts';
import { rulesLanguage } from '../language.ts';
import { FactQuestion } from '../questions/fact-question.tsx';
import { FindingQuestion } from '../questions/finding-question.tsx';
import { useSession } from '../session.ts';
import type { Question, Section } from '../steps.ts';
import { sayMinutes } from '../words.ts';
import { checkMinutes } from './check-minutes.ts';
import { HowTo } from './how-to.tsx';

interface Props {
  readonly sections: readonly Section[];
  readonly catalogue: Catalogue;
}

export function QuestionsStep({ sections, catalogue }: Props) {
  const { assessment } = useSession().adviser.advice.value;
  return (
    <>
      {sections.map((section) => (
        <section class="procedure" key={section.check?.id ?? 'loose'}>
          {section.check !== null && (
            <header>
              <h2>
                <span lang={rulesLanguage.value}>{section.check.name}</span>{' '}
                <small>{sayMinutes(checkMinutes(section.check, assessment))}</small>
              </h2>
              <p lang={rulesLanguage.value}>{section.check.purpose}</p>
              <HowTo of={section.check} catalogue={catalogue} />
            </header>
          )}
          <Questions questions={section.questions} />
        </section>
      ))}
    </>
  );
}

export function Questions({ questions, disabled }: { questions: readonly Question[]; disabled?: boolean }) {
  const { adviser } = useSession();
  const { assessment } = adviser.advice.value;
  const evidence = assessment === null || assessment.kind === 'bad-record' ? [] : assessment.evidence;
  return (
    <>
      {questions.map((question) =>
        question.kind === 'fact' ? (
          <FactQuestion id={question.key} fact={question.fact} key={question.key} />
        ) : (
          <FindingQuestion
            id={question.key}
            finding={question.finding}
            witness={question.witness}
            evidence={evidence.find(({ finding }) => finding === question.finding.id)}
            disabled={disabled ?? false}
            key={question.key}
          />
        ),
      )}
    </>
  );
}

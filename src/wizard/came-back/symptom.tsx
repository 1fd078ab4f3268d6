import { useState } from 'preact/hooks';
import type { Record } from '../../record/schema.ts';
import type { Catalogue } from '../catalogue.ts';
import { answerFinding, clearFinding, findingAnswer } from '../desk.ts';
import { messages } from '../language.ts';
import { ChoiceQuestion, withUnknowns } from '../questions/choice-question.tsx';
import { FindingQuestion } from '../questions/finding-question.tsx';
import { useSession } from '../session.ts';
import { findingKey } from '../steps.ts';
import { shownBefore } from './service.ts';
import { cameBackWords } from './words.ts';

/** What a card shows first, and what an owner can tell of it. */
const SYMPTOM = 'start-up';

/** The same failure as before, or another: the owner's word, to begin with. */
export function Symptom({ record, catalogue }: { readonly record: Record; readonly catalogue: Catalogue }) {
  const { edit } = useSession();
  const { symptom: words } = cameBackWords.value;
  const [otherwise, setOtherwise] = useState(false);
  const finding = catalogue.findings.find(({ id }) => id === SYMPTOM);
  const before = shownBefore(record, SYMPTOM);
  if (finding === undefined) return null;
  const told = findingAnswer(record, SYMPTOM, 'owner');
  const state = told?.type === 'seen' ? told.state : undefined;
  const name = finding.states.find(({ id }) => id === before)?.name;
  const another = otherwise || (typeof state === 'string' && state !== before);
  const value = another ? 'another' : state === before && before !== null ? 'same' : state;
  return (
    <>
      {name !== undefined && (
        <ChoiceQuestion
          id="same-symptom"
          question={words.question}
          about={words.about}
          choices={withUnknowns(
            [
              { value: 'same', name: words.same(name) },
              { value: 'another', name: words.another },
            ],
            messages.value.questions.notAsked,
          )}
          value={value}
          onAnswer={(answer) => {
            setOtherwise(answer === 'another');
            edit((latest, at) =>
              answer === 'same' || answer === null
                ? answerFinding(latest, SYMPTOM, answer === null ? null : before, 'owner', at)
                : clearFinding(latest, SYMPTOM, 'owner'),
            );
          }}
          layout="rows"
        />
      )}
      {(another || name === undefined) && (
        <FindingQuestion id={findingKey(SYMPTOM, 'owner')} finding={finding} witness="owner" evidence={undefined} />
      )}
    </>
  );
}

import type { FactDefinition } from '../../knowledge/schema.ts';
import { answerFact, clearFact, type FactAnswer, factAnswer } from '../desk.ts';
import { messages, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { AboutFact } from './about-fact.tsx';
import { ChoiceQuestion, withUnknowns } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { SetQuestion } from './set-question.tsx';

interface Props {
  readonly id: string;
  readonly fact: FactDefinition;
}

const yesNo = (value: FactAnswer | undefined): string | null | undefined =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : value === null ? null : undefined;

export function FactQuestion({ id, fact }: Props) {
  const { desk, drafts, edit } = useSession();
  if (desk.value === null) return null;
  const value = factAnswer(desk.value.record, fact.id);
  const answer = (next: FactAnswer | undefined, field?: string) =>
    edit(
      (record, at) => (next === undefined ? clearFact(record, fact.id, at) : answerFact(record, fact.id, next, at)),
      field,
    );
  const { question, type } = fact;
  const about = <AboutFact fact={fact} />;
  const { questions } = messages.value;
  switch (type.kind) {
    case 'choice':
      return (
        <ChoiceQuestion
          id={id}
          question={question}
          about={about}
          choices={withUnknowns(
            type.values.map((state) => ({ value: state.id, name: state.name, lang: rulesLanguage.value })),
            questions.notAsked,
          )}
          value={typeof value === 'string' ? value : value === null ? null : undefined}
          onAnswer={answer}
          layout="line"
        />
      );
    case 'yes-no':
      return (
        <ChoiceQuestion
          id={id}
          question={question}
          about={about}
          choices={withUnknowns(
            [
              { value: 'yes', name: questions.yes },
              { value: 'no', name: questions.no },
            ],
            questions.notAsked,
          )}
          value={yesNo(value)}
          onAnswer={(next) => answer(typeof next === 'string' ? next === 'yes' : next)}
          layout="line"
        />
      );
    case 'set':
      return (
        <SetQuestion
          id={id}
          question={question}
          about={about}
          values={type.values}
          value={Array.isArray(value) ? value : value === null ? null : undefined}
          onAnswer={(next) => answer(next === undefined || next === null ? next : [...next])}
        />
      );
    case 'number':
      return (
        <NumberQuestion
          id={id}
          question={question}
          about={about}
          unit={type.unit}
          min={type.min}
          max={type.max}
          value={typeof value === 'number' ? value : value === null ? null : undefined}
          draft={drafts.texts.value.get(id)}
          onAnswer={(next) => answer(next, id)}
          onDraft={(text) => drafts.set(id, text)}
        />
      );
  }
}

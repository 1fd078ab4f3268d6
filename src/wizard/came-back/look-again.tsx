import type { Record } from '../../record/schema.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { progressOf, type StepId, sectionsOf } from '../steps.ts';
import { cameBackWords } from './words.ts';

const STEPS: readonly StepId[] = ['symptoms', 'looks', 'readings', 'tests'];

/** The steps whose questions are asked again, since the answers of before belong to the card as it was. */
export function LookAgain({ record, catalogue }: { readonly record: Record; readonly catalogue: Catalogue }) {
  const session = useSession();
  const { again: words } = cameBackWords.value;
  const { applicable } = session.adviser.advice.value;
  return (
    <section class="look-again">
      <h2>{words.heading}</h2>
      <p class="about">{words.about}</p>
      <ul>
        {STEPS.map((step) => {
          const found = sectionsOf(step, catalogue, record, applicable).map(({ check, questions }) => ({
            check,
            questions: questions.filter(({ kind }) => kind === 'finding'),
          }));
          const { answered, asked } = progressOf(found, record);
          return (
            <li key={step}>
              <button type="button" onClick={() => jumpTo(session, step)}>
                {messages.value.steps.names[step]}
              </button>{' '}
              <small>{words.answered(answered, asked)}</small>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

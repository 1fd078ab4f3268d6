import type { Assessment } from '../../assessment.ts';
import { openCard, place, writePlace } from '../address.ts';
import type { Catalogue } from '../catalogue.ts';
import { type Desk, isBlank } from '../desk.ts';
import { onceDrawn, standOnHeading } from '../frame/jump.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { progressOf, type StepId, sectionsOf, stepsOf } from '../steps.ts';
import { sayMinutes, sayStamp } from '../words.ts';
import { isWorkOffered } from '../work-order/under-way.ts';

/** The two steps that ask nothing say what they hold. */
function wordsFor(step: StepId, assessment: Assessment | null): string {
  if (assessment?.kind !== 'assessed' || step === 'owner' || step === 'came-back' || step === 'work') return '';
  if (step === 'verdict') return sayStamp(assessment.verdict.kind);
  const { next } = assessment;
  if (next.kind === 'act') return messages.value.steps.act;
  const advice = assessment.checks.find(({ check }) => check === next.check);
  return advice === undefined ? '' : sayMinutes(advice.minutes);
}

interface Props {
  readonly desk: Desk;
  readonly catalogue: Catalogue;
  readonly step: StepId;
}

export function StepList({ desk, catalogue, step }: Props) {
  const session = useSession();
  const here = openCard(place.value);
  const { steps } = messages.value;
  const { assessment, applicable } = session.adviser.advice.value;
  const work = step === 'work' || isWorkOffered(desk.record, assessment, session.drafts.texts.value);
  return (
    <nav class="steps" aria-label={steps.label}>
      <ol>
        {stepsOf(desk.record, { work }).map((id) => {
          const { answered, asked } = progressOf(sectionsOf(id, catalogue, desk.record, applicable), desk.record);
          return (
            <li key={id}>
              <a
                href={here === null ? '#/' : writePlace({ ...here, step: id })}
                aria-current={id === step ? 'step' : undefined}
                onClick={(event) => {
                  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
                  event.preventDefault();
                  session.go(id);
                  onceDrawn(standOnHeading);
                }}
              >
                <span class="step-name">{steps.names[id]}</span>
                {asked === 0 && (
                  <span class="step-progress">{isBlank(desk.record) ? '' : wordsFor(id, assessment)}</span>
                )}
                {asked > 0 && (
                  <span class="step-progress">
                    {answered}
                    <span class="visually-hidden"> {steps.answered}</span> {steps.of(asked)}
                    <span class="step-bar" aria-hidden="true">
                      <span style={{ width: `${(100 * answered) / asked}%` }} />
                    </span>
                  </span>
                )}
              </a>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

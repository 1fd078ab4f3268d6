import { place, writePlace } from '../address.ts';
import type { Catalogue } from '../catalogue.ts';
import type { Desk } from '../desk.ts';
import { onceDrawn, standOnHeading } from '../frame/jump.ts';
import { useSession } from '../session.ts';
import { progressOf, STEPS, type StepId, sectionsOf } from '../steps.ts';

interface Props {
  readonly desk: Desk;
  readonly catalogue: Catalogue;
  readonly step: StepId;
}

export function StepList({ desk, catalogue, step }: Props) {
  const session = useSession();
  const here = place.value;
  return (
    <nav class="steps" aria-label="Steps">
      <ol>
        {STEPS.map(({ id, name }) => {
          const { answered, asked } = progressOf(sectionsOf(id, catalogue, desk.record), desk.record);
          return (
            <li key={id}>
              <a
                href={here.screen === 'bench' ? '#/' : writePlace({ ...here, step: id })}
                aria-current={id === step ? 'step' : undefined}
                onClick={(event) => {
                  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
                  event.preventDefault();
                  session.go(id);
                  onceDrawn(standOnHeading);
                }}
              >
                <span class="step-name">{name}</span>
                {asked > 0 && (
                  <span class="step-progress">
                    {answered}
                    <span class="visually-hidden"> answered</span> of {asked}
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

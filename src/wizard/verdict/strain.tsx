import type { Assessed } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { CautionMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { findingKey, stepOf } from '../steps.ts';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

const SHOWN = 4;

/** Findings that disagree more than by chance, each with the way back to it. */
export function Strain({ assessed, catalogue }: Props) {
  const session = useSession();
  const { verdict } = messages.value;
  return (
    <section class="notice">
      <h2>
        <CautionMark /> {verdict.strained}
      </h2>
      <p>{verdict.strainedAbout}</p>
      <ul class="jumps">
        {assessed.strain.against.slice(0, SHOWN).map(({ finding, name }) => {
          const view = catalogue.findings.find(({ id }) => id === finding);
          return (
            view !== undefined && (
              <li key={finding}>
                <button type="button" onClick={() => jumpTo(session, stepOf(view), findingKey(finding))}>
                  {verdict.lookAgain(name)}
                </button>
              </li>
            )
          );
        })}
      </ul>
    </section>
  );
}

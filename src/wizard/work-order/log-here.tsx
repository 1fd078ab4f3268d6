import { ProfileZone } from '../profile/profile-zone.tsx';
import { useSession } from '../session.ts';
import { sayPercent } from '../words.ts';
import { heavierOf, LOG_FINDING, logField, logIn, stateField } from './entry.ts';
import { workWords } from './words.ts';

interface Props {
  readonly step: string;
  readonly remedy: string;
}

/** The logger's file of this work, judged here and recorded with the hold point. */
export function LogHere({ step, remedy }: Props) {
  const { desk, drafts } = useSession();
  const { point: words } = workWords.value;
  const field = logField(step);
  const log = logIn(drafts.texts.value.get(field));
  if (desk.value === null) return null;
  return (
    <div class="point-log">
      <ProfileZone
        record={desk.value.record}
        remedy={remedy}
        onRecord={(weights) => {
          drafts.set(stateField(step, LOG_FINDING), null);
          drafts.set(field, JSON.stringify(weights));
        }}
      />
      {log !== null && (
        <p role="status" class="point-judged">
          <b>{words.logJudged(words.logStates[heavierOf(log)], sayPercent(log[heavierOf(log)]))}</b>{' '}
          <button type="button" class="quiet" onClick={() => drafts.set(field, null)}>
            {words.logOut}
          </button>
        </p>
      )}
    </div>
  );
}

import { messages } from '../language.ts';
import type { Offline } from './registration.ts';

/** Says that a newer build is there. It is loaded when somebody says so, never under their hands. */
export function NewerNotice({ offline }: { readonly offline: Offline }) {
  const { kind } = offline.newer.value;
  const words = messages.value.offline;
  return (
    <div role="status">
      {kind !== 'none' && (
        <div class="newer">
          <p>
            <b>{kind === 'ready' ? words.newerReady : words.newerElsewhere}</b> {words.newerAbout}
          </p>
          <button type="button" onClick={() => offline.reload()}>
            {words.loadNewer}
          </button>
        </div>
      )}
    </div>
  );
}

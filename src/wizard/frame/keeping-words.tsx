import type { Keeping } from '../keeper.ts';
import { useSession } from '../session.ts';

/** Whether what was typed is safe, in words. */
export function KeepingWords() {
  const session = useSession();
  const keeping = session.keeper.keeping.value;
  return (
    <span class="keeping" role="status" data-state={keeping.state}>
      {wordsFor(keeping)}
      {keeping.state === 'on-this-device' && (
        <button type="button" class="quiet" onClick={() => void session.keeper.sync()}>
          Try again
        </button>
      )}
      {keeping.state === 'changed-elsewhere' && (
        <>
          <button type="button" class="quiet" onClick={() => void session.settle('mine')}>
            Keep mine
          </button>
          <button type="button" class="quiet" onClick={() => void session.settle('theirs')}>
            Take that one
          </button>
        </>
      )}
    </span>
  );
}

function wordsFor(keeping: Keeping): string {
  switch (keeping.state) {
    case 'idle':
      return '';
    case 'saving':
      return 'Saving …';
    case 'saved':
      return 'Saved';
    case 'on-this-device':
      return `Kept on this device: ${keeping.why}`;
    case 'changed-elsewhere':
      return 'This card was changed elsewhere too';
  }
}

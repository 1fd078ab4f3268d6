import type { Keeping } from '../keeper.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';

/** Whether what was typed is safe, in words. Read out is only what somebody has to know: not that every answer was saved. */
export function KeepingWords() {
  const session = useSession();
  const keeping = session.keeper.keeping.value;
  const words = messages.value.keeping;
  const trouble = keeping.state === 'on-this-device' || keeping.state === 'changed-elsewhere';
  return (
    <span class="keeping" role="status" aria-live={trouble ? 'polite' : 'off'} data-state={keeping.state}>
      <span class="keeping-words">{wordsFor(keeping)}</span>
      {keeping.state === 'on-this-device' && (
        <button type="button" class="quiet" onClick={() => void session.keeper.sync()}>
          {words.tryAgain}
        </button>
      )}
      {keeping.state === 'changed-elsewhere' && (
        <>
          <button type="button" class="quiet" onClick={() => void session.settle('mine')}>
            {words.keepMine}
          </button>
          <button type="button" class="quiet" onClick={() => void session.settle('theirs')}>
            {words.takeTheirs}
          </button>
        </>
      )}
    </span>
  );
}

function wordsFor(keeping: Keeping): string {
  const words = messages.value.keeping;
  switch (keeping.state) {
    case 'idle':
      return '';
    case 'saving':
      return words.saving;
    case 'saved':
      return words.saved;
    case 'on-this-device':
      return words.onThisDevice(keeping.refusal ?? words.noServer);
    case 'changed-elsewhere':
      return words.changedElsewhere;
  }
}

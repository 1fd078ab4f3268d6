import { useEffect, useState } from 'preact/hooks';
import type { Move } from '../card/moves.ts';
import { sayMoves } from '../card/say-moves.ts';
import { useMoves } from '../card/use-moves.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { sayPercent } from '../words.ts';

const SETTLE_MS = 900;

/** Tells a screen reader what an answer has changed, once the answers have settled: the verdict, the first cause, what moved most. */
export function Announcer() {
  const { adviser, desk } = useSession();
  const [said, setSaid] = useState('');
  const { assessment, pending } = adviser.advice.value;
  const moves = useMoves(desk.value, !pending && assessment?.kind === 'assessed' ? assessment : null);
  const words = assessment === null || pending ? null : wordsFor(assessment, moves);
  useEffect(() => {
    if (words === null) return;
    const timer = setTimeout(() => setSaid(words), SETTLE_MS);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <div class="visually-hidden" role="status" aria-live="polite">
      {said}
    </div>
  );
}

type Shown = NonNullable<ReturnType<typeof useSession>['adviser']['advice']['value']['assessment']>;

const MOST_MOVES_SAID = 2;

function wordsFor(assessment: Shown, moves: readonly Move[] | null): string {
  const { notices, announcer, pointing } = messages.value;
  switch (assessment.kind) {
    case 'contradiction':
      return notices.seeWhere(notices.contradiction);
    case 'bad-record':
      return notices.seeWhere(notices.unreadableLabel);
    case 'assessed': {
      const [first] = assessment.ranking;
      const cause = first === undefined ? '' : announcer.likeliest(first.name, sayPercent(first.chance));
      const moved =
        moves === null
          ? ''
          : moves.length === 0
            ? pointing.nothingMoved
            : pointing.movedSince(sayMoves(moves.slice(0, MOST_MOVES_SAID)));
      return [announcer.verdictSoFar(assessment.verdict.name), cause, moved].filter((one) => one !== '').join(' ');
    }
  }
}

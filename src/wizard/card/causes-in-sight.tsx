/** The first few causes, or those of one part of the card: how likely, what the last answer moved, and why on unfolding. */
import { useEffect, useState } from 'preact/hooks';
import type { Assessed, RankedFault } from '../../assessment.ts';
import type { Site } from '../../knowledge/schema.ts';
import { messages } from '../language.ts';
import { sayPercent } from '../words.ts';
import { ChanceBar } from './chance-bar.tsx';
import { Evidence } from './evidence.tsx';
import { Moved } from './moved.tsx';
import { type Move, movesOutOfSight } from './moves.ts';

interface Props {
  readonly assessed: Assessed;
  readonly picked: Site | null;
  /** null: nothing was answered since the card was opened */
  readonly moves: readonly Move[] | null;
  readonly onWhole: () => void;
}

const SHOWN = 4;
/** of one part of the card, causes rarer than this are not worth a line */
const LEAST_CHANCE_SHOWN = 0.005;

export function CausesInSight({ assessed, picked, moves, onWhole }: Props) {
  const { pointing, sites } = messages.value;
  const shown =
    picked === null
      ? assessed.ranking.slice(0, SHOWN)
      : assessed.ranking.filter(({ site, chance }) => site === picked && chance >= LEAST_CHANCE_SHOWN);
  const moveOf = (fault: string) => moves?.find((move) => move.fault === fault);
  const elsewhere = movesOutOfSight(moves ?? [], new Set(shown.map(({ fault }) => fault)));
  return (
    <>
      <ol>
        {shown.map((cause) => (
          <Cause cause={cause} move={moveOf(cause.fault)} key={cause.fault} />
        ))}
        {picked === null && (
          <li class="sound">
            <span class="cause-name">{pointing.sound}</span>
            <span class="cause-chance">{sayPercent(assessed.sound)}</span>
            <ChanceBar chance={assessed.sound} before={null} />
          </li>
        )}
      </ol>
      {picked !== null && shown.length === 0 && <p class="no-evidence">{sites.noneHere}</p>}
      {picked !== null && (
        <button type="button" class="quiet" onClick={onWhole}>
          {sites.showAll}
        </button>
      )}
      {elsewhere.length > 0 && (
        <p class="also-moved">
          {pointing.alsoMoved} {sayMoves(elsewhere)}
        </p>
      )}
      <p class="bar-legend" aria-hidden="true">
        <span class="legend-before" /> {pointing.legendBefore}
        {moves !== null && moves.length > 0 && (
          <>
            <span class="legend-moved" /> {pointing.legendMoved}
          </>
        )}
      </p>
      <Said moves={moves} />
    </>
  );
}

function Cause({ cause, move }: { cause: RankedFault; move: Move | undefined }) {
  return (
    <li>
      <details class="cause-short">
        <summary>
          <span class="cause-name">{cause.name}</span>
          <span class="cause-chance">
            {move !== undefined && <Moved points={move.points} key={`${move.was} ${move.now}`} />}
            {sayPercent(cause.chance)}
          </span>
          <ChanceBar chance={cause.chance} before={cause.before} was={move?.was} />
        </summary>
        <Evidence cause={cause} short />
      </details>
    </li>
  );
}

function sayMoves(moves: readonly Move[]): string {
  const { pointing } = messages.value;
  return moves.map(({ name, was, now }) => pointing.movedTo(name, sayPercent(was), sayPercent(now))).join('; ');
}

const SETTLE_MS = 1_200;
const MOST_SAID = 2;

/** For a screen reader, once the answers have settled. */
function Said({ moves }: { moves: readonly Move[] | null }) {
  const { pointing } = messages.value;
  const [said, setSaid] = useState('');
  const words =
    moves === null
      ? ''
      : moves.length === 0
        ? pointing.nothingMoved
        : pointing.movedSince(sayMoves(moves.slice(0, MOST_SAID)));
  useEffect(() => {
    const timer = setTimeout(() => setSaid(words), SETTLE_MS);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <div class="visually-hidden" role="status" aria-live="polite">
      {said}
    </div>
  );
}

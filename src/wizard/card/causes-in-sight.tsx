/** The first few causes, or those of one part of the card: how likely, what the last answer moved, and why on unfolding. */
import type { Points } from '../../assess/points.ts';
import type { Assessed, RankedFault } from '../../assessment.ts';
import type { Site } from '../../knowledge/schema.ts';
import { messages } from '../language.ts';
import { sayPercent } from '../words.ts';
import { ChanceBar } from './chance-bar.tsx';
import { Evidence } from './evidence.tsx';
import { Moved } from './moved.tsx';
import { type Move, movesOutOfSight } from './moves.ts';
import { sayMoves } from './say-moves.ts';

interface Props {
  readonly points: Points;
  /** what speaks for each cause; behind `points` while it is being worked on */
  readonly assessed: Assessed;
  readonly picked: Site | null;
  /** null: nothing was answered since the card was opened */
  readonly moves: readonly Move[] | null;
  readonly onWhole: () => void;
}

const SHOWN = 4;
/** of one part of the card, causes rarer than this are not worth a line */
const LEAST_CHANCE_SHOWN = 0.005;

export function CausesInSight({ points, assessed, picked, moves, onWhole }: Props) {
  const { pointing, sites } = messages.value;
  const shown =
    picked === null
      ? points.ranking.slice(0, SHOWN)
      : points.ranking.filter(({ site, chance }) => site === picked && chance >= LEAST_CHANCE_SHOWN);
  const evidenceOf = new Map(assessed.ranking.map(({ fault, evidence }) => [fault, evidence]));
  const moveOf = (fault: string) => moves?.find((move) => move.fault === fault);
  const elsewhere = movesOutOfSight(moves ?? [], new Set(shown.map(({ fault }) => fault)));
  return (
    <>
      <ol>
        {shown.map((cause) => (
          <Cause
            cause={{ ...cause, evidence: evidenceOf.get(cause.fault) ?? [] }}
            move={moveOf(cause.fault)}
            key={cause.fault}
          />
        ))}
        {picked === null && (
          <li class="sound">
            <span class="cause-name">{pointing.sound}</span>
            <span class="cause-chance">{sayPercent(points.sound)}</span>
            <ChanceBar chance={points.sound} before={null} />
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

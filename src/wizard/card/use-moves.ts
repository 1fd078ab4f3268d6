import { useRef } from 'preact/hooks';
import type { Points } from '../../assess/points.ts';
import type { Desk } from '../desk.ts';
import { type Move, movesBetween } from './moves.ts';

type Pointing = Pick<Points, 'ranking'>;

interface Memory {
  /** tells one answer from the next; keystrokes in one field are one answer */
  readonly answer: unknown;
  readonly before: Pointing | null;
  readonly after: Pointing;
}

/** What the last answer moved; null before there was one. `settled` is where what is on the desk now points. */
export function useMoves(desk: Desk | null, settled: Pointing | null): readonly Move[] | null {
  const memory = useRef<Memory | null>(null);
  if (settled !== null && desk !== null) {
    const answer = desk.past.at(-1) ?? desk.record.id;
    const { current } = memory;
    const sameAnswer = current !== null && current.answer === answer;
    memory.current = {
      answer,
      before: sameAnswer ? current.before : (current?.after ?? null),
      after: settled,
    };
  }
  const { current } = memory;
  return current === null || current.before === null
    ? null
    : movesBetween(current.before.ranking, current.after.ranking);
}

import { useRef } from 'preact/hooks';
import type { Assessed } from '../../assessment.ts';
import type { Desk } from '../desk.ts';
import { type Move, movesBetween } from './moves.ts';

interface Memory {
  /** tells one answer from the next; keystrokes in one field are one answer */
  readonly answer: unknown;
  readonly before: Assessed | null;
  readonly after: Assessed;
}

/** What the last answer moved; null before there was one. `settled` is the assessment of what is on the desk now. */
export function useMoves(desk: Desk | null, settled: Assessed | null): readonly Move[] | null {
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

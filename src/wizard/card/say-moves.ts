import { messages } from '../language.ts';
import { sayPercent } from '../words.ts';
import type { Move } from './moves.ts';

export function sayMoves(moves: readonly Move[]): string {
  const { pointing } = messages.value;
  return moves.map(({ name, was, now }) => pointing.movedTo(name, sayPercent(was), sayPercent(now))).join('; ');
}

/** A chance as a hundred cards, each counted once: some hold, some come back, some never work. */
export interface Hundred {
  readonly holds: number;
  readonly relapses: number;
  readonly fails: number;
}

/**
 * Rounded as `works` and `holds` are everywhere else, so that the picture and the words agree; the rest follows by
 * subtraction. `holds` is at most `works`.
 *
 * @example works 0.664, holds 0.536: 54 hold, 12 come back, 34 fail
 */
export function hundredOf(works: number, holds: number): Hundred {
  const working = Math.round(100 * works);
  const holding = Math.min(working, Math.round(100 * holds));
  return { holds: holding, relapses: working - holding, fails: 100 - working };
}

export type Kind = keyof Hundred;
export const KINDS: readonly Kind[] = ['holds', 'relapses', 'fails'];

export const eachOf = (hundred: Hundred): readonly Kind[] =>
  KINDS.flatMap((kind) => Array.from({ length: hundred[kind] }, () => kind));

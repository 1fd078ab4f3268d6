/**
 * The `count` words nearest in spelling to what was typed, nearest first: fewest letters to insert, delete or replace
 * (Levenshtein 1966); of equals the earlier word first. Cost: typed length x total length of the words.
 */
export function nearest(typed: string, words: readonly string[], count: number): string[] {
  return words
    .map((word) => ({ word, distance: editDistance(typed, word) }))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, count)
    .map(({ word }) => word);
}

function editDistance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (const [i, letter] of [...from].entries()) {
    const next = [i + 1];
    for (let j = 0; j < to.length; j += 1) {
      const replaced = (row[j] ?? 0) + (letter === to[j] ? 0 : 1);
      next.push(Math.min(replaced, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    }
    row = next;
  }
  return row.at(-1) ?? 0;
}

interface Props {
  readonly chance: number;
  /** the chance from history alone, as a tick; null: none drawn */
  readonly before: number | null;
  /** the chance before the last answer: what lies between is hatched */
  readonly was?: number | undefined;
}

/** Repeats the figure beside it. */
export function ChanceBar({ chance, before, was }: Props) {
  const from = Math.min(was ?? chance, chance);
  const to = Math.max(was ?? chance, chance);
  return (
    <span class="chance-bar" aria-hidden="true">
      <span class="chance-fill" style={{ width: `${100 * (was !== undefined && was > chance ? chance : from)}%` }} />
      {to > from && (
        <span
          class="chance-moved"
          data-way={chance > from ? 'up' : 'down'}
          style={{ left: `${100 * from}%`, width: `${100 * (to - from)}%` }}
        />
      )}
      {before !== null && <span class="chance-before" style={{ left: `${100 * before}%` }} />}
    </span>
  );
}

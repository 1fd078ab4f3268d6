interface Props {
  readonly chance: number;
  /** the chance from history alone, as a tick; null: none drawn */
  readonly before: number | null;
}

/** Repeats the figure beside it. */
export function ChanceBar({ chance, before }: Props) {
  return (
    <span class="chance-bar" aria-hidden="true">
      <span class="chance-fill" style={{ width: `${100 * chance}%` }} />
      {before !== null && (
        <span class="chance-before" style={{ left: `${100 * before}%` }} title="from its history alone" />
      )}
    </span>
  );
}

/** What is closed, by the reasons it is closed for. */
export interface Reason {
  readonly reason: string;
  readonly names: readonly string[];
}

/** Each reason once, the one that closes most first. */
export function byReason(
  closed: readonly { readonly name: string; readonly reasons: readonly string[] }[],
): readonly Reason[] {
  const names = new Map<string, string[]>();
  for (const { name, reasons } of closed)
    for (const reason of new Set(reasons)) names.set(reason, [...(names.get(reason) ?? []), name]);
  return [...names].map(([reason, held]) => ({ reason, names: held })).sort((a, b) => b.names.length - a.names.length);
}

/** The same knowledge with one number moved, for asking what depends on it. */
import { compileNetwork } from './compile.ts';
import type { Knowledge } from './knowledge.ts';
import type { Fault, Finding, Id, Remedy, Row } from './schema.ts';

/**
 * A probability whose log-odds are moved: 1 / (1 + (1 / p - 1) e^-by). 0 and 1 stay where they are.
 *
 * @example shiftLogOdds(0.5, Math.log(3)) // 0.75
 */
export function shiftLogOdds(p: number, by: number): number {
  if (p === 0 || p === 1) return p;
  return 1 / (1 + (1 / p - 1) * Math.exp(-by));
}

/**
 * A row whose likeliest state has its log-odds moved; the others share what is left in their old proportions, so that
 * the row still sums to one. A row that is certain stays as it is. The first of equally likely states moves.
 *
 * @example tilt of {a: 0.5, b: 0.3, c: 0.2} by ln 3 is {a: 0.75, b: 0.15, c: 0.1}
 */
export function tilt(row: Row, by: number): Row {
  const states = Object.entries(row.p);
  const [likeliest, most] = states.reduce((best, one) => (one[1] > best[1] ? one : best));
  const moved = shiftLogOdds(most, by);
  if (moved === most) return row;
  const rest = (1 - moved) / (1 - most);
  return { ...row, p: Object.fromEntries(states.map(([id, p]) => [id, id === likeliest ? moved : p * rest])) };
}

export function withShare(knowledge: Knowledge, fault: Id, by: number): Knowledge {
  const faults = knowledge.faults.map(
    (one): Fault => (one.id === fault ? { ...one, share: { ...one.share, p: shiftLogOdds(one.share.p, by) } } : one),
  );
  return { ...knowledge, faults, version: `${knowledge.version}, share of ${fault} moved by ${by}` };
}

/** `fault` undefined: the leak. Only the finding that changes is compiled anew. */
export function withRow(knowledge: Knowledge, finding: Id, fault: Id | undefined, by: number): Knowledge {
  const at = knowledge.findings.findIndex(({ id }) => id === finding);
  const before = knowledge.findings[at]!;
  const after: Finding =
    fault === undefined
      ? { ...before, leak: tilt(before.leak, by) }
      : { ...before, given: { ...before.given, [fault]: tilt(before.given[fault]!, by) } };
  const [node] = compileNetwork(knowledge.faults, [after]).findings;
  return {
    ...knowledge,
    findings: knowledge.findings.with(at, after),
    network: { ...knowledge.network, findings: knowledge.network.findings.with(at, node!) },
    version: `${knowledge.version}, ${finding} given ${fault ?? 'no fault'} moved by ${by}`,
  };
}

/** The chance of a cure; the chance of a mask gives way where there is no room for both. */
export function withCure(knowledge: Knowledge, remedy: Id, fault: Id, by: number): Knowledge {
  const remedies = knowledge.remedies.map((one): Remedy => {
    const effect = one.effects[fault];
    if (one.id !== remedy || effect === undefined) return one;
    const { masks, cures } = effect;
    const p = shiftLogOdds(cures.p, by);
    const moved = { cures: { ...cures, p }, ...(masks ? { masks: { ...masks, p: Math.min(masks.p, 1 - p) } } : {}) };
    return { ...one, effects: { ...one.effects, [fault]: moved } };
  });
  return { ...knowledge, remedies, version: `${knowledge.version}, cure of ${fault} by ${remedy} moved by ${by}` };
}

/** Which estimates the verdicts depend on most: the to-do list for whoever knows better. */
import type { Knowledge } from './knowledge.ts';
import type { Basis, Id } from './schema.ts';
import { withCure, withRow, withShare } from './vary.ts';

/** A worked case: its record, and what its assessment with the knowledge as it is rests on. */
export interface RankedCase<R> {
  readonly id: string;
  readonly record: R;
  /** the faults it ranks highest; three to five are enough */
  readonly faults: readonly Id[];
  /** the findings it has evidence on */
  readonly findings: readonly Id[];
}

export interface Outcome {
  readonly verdict: string;
  /** of the best option that works on the card, less that of the best way to stop: stopping alone is worth the same whatever is believed */
  readonly surplus: number;
}

export interface RankedEstimate {
  readonly kind: 'share' | 'row' | 'leak' | 'cure';
  readonly fault?: Id;
  readonly finding?: Id;
  readonly remedy?: Id;
  readonly because?: string;
  readonly replaceBy?: string;
  /** change of surplus, the larger of the two directions, averaged over all cases given */
  readonly change: number;
  /** cases whose verdict changes in at least one direction */
  readonly flips: readonly string[];
  /** cases it was tried on */
  readonly tried: readonly string[];
}

/** How far an estimate is moved both ways: 0.5 turns 50 % into 62 % or 38 %. */
export const LOG_ODDS_STEP = 0.5;

/**
 * Moves one estimate at a time by LOG_ODDS_STEP both ways (a fault's share, a finding's row or leak, a remedy's chance
 * to cure) and asks `assessed` for verdict and surplus again. Those that change most verdicts come first, then those
 * that change the surplus most.
 *
 * Only estimates that concern a case are tried on it: shares and cures of its top faults, and of its observed findings
 * the leak and the rows of those faults. Others can move it only through what is left of the belief. Numbers with
 * another basis, history factors and damage are not tried. Cost: two assessments for each estimate and case, about
 * 2 (F + F C + O (F + 1)) for a case with F top faults, C remedies for each and O observed findings.
 */
export async function rankEstimates<R>(
  knowledge: Knowledge,
  cases: readonly RankedCase<R>[],
  assessed: (knowledge: Knowledge, record: R) => Promise<Outcome>,
): Promise<RankedEstimate[]> {
  const found = new Map<string, { estimate: Estimate; change: number; flips: string[]; tried: string[] }>();
  for (const one of cases) {
    const before = await assessed(knowledge, one.record);
    for (const estimate of concerning(knowledge, one)) {
      let change = 0;
      let flips = false;
      for (const by of [-LOG_ODDS_STEP, LOG_ODDS_STEP]) {
        const after = await assessed(estimate.moved(by), one.record);
        change = Math.max(change, Math.abs(after.surplus - before.surplus));
        flips ||= after.verdict !== before.verdict;
      }
      const sum = found.get(estimate.key) ?? { estimate, change: 0, flips: [], tried: [] };
      sum.change += change / cases.length;
      sum.tried.push(one.id);
      if (flips) sum.flips.push(one.id);
      found.set(estimate.key, sum);
    }
  }
  return [...found.values()]
    .map(({ estimate, ...sums }) => ({ ...estimate.about, ...sums }))
    .sort((a, b) => b.flips.length - a.flips.length || b.change - a.change);
}

interface Estimate {
  readonly key: string;
  readonly about: Omit<RankedEstimate, 'change' | 'flips' | 'tried'>;
  readonly moved: (by: number) => Knowledge;
}

function concerning(knowledge: Knowledge, { faults, findings }: RankedCase<unknown>): Estimate[] {
  const list: Estimate[] = [];
  const add = (basis: Basis, about: Estimate['about'], moved: Estimate['moved']) => {
    if (basis.basis !== 'estimate') return;
    const { because, replaceBy } = basis;
    const key = JSON.stringify(about);
    list.push({
      key,
      about: { ...about, ...(because ? { because } : {}), ...(replaceBy ? { replaceBy } : {}) },
      moved,
    });
  };
  for (const fault of knowledge.faults) {
    if (!faults.includes(fault.id)) continue;
    add(fault.share, { kind: 'share', fault: fault.id }, (by) => withShare(knowledge, fault.id, by));
    for (const { id, effects } of knowledge.remedies)
      if (effects[fault.id])
        add(effects[fault.id]!.cures, { kind: 'cure', remedy: id, fault: fault.id }, (by) =>
          withCure(knowledge, id, fault.id, by),
        );
  }
  for (const finding of knowledge.findings) {
    if (!findings.includes(finding.id)) continue;
    add(finding.leak, { kind: 'leak', finding: finding.id }, (by) => withRow(knowledge, finding.id, undefined, by));
    for (const fault of faults)
      if (finding.given[fault])
        add(finding.given[fault], { kind: 'row', finding: finding.id, fault }, (by) =>
          withRow(knowledge, finding.id, fault, by),
        );
  }
  return list;
}

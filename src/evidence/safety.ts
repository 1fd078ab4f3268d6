/**
 * The order of safety, as a gate: resistance before voltage before image, and the first power from a supply that limits
 * its current. A card with a shorted rail burns what the short has spared; a bench that has not measured does not know.
 */
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Finding, Id } from '../knowledge/schema.ts';
import type { FindingEvidence } from './evidence.ts';
import { shareOf } from './facts.ts';

/** The check whose findings must be known before power. */
export const RESISTANCES_CHECK: Id = 'rail-resistances';
/** The state of a rail that forbids power. */
export const SHORT_STATE: Id = 'short';
/** Checks that power the card from a current-limited supply: one of them comes before any other power. */
export const LIMITED_CHECKS: readonly Id[] = ['rails-on-limited-supply', 'idle-current'];
/**
 * A rail counts as short when more than this share of its weight rests on `short`: an even split still lets power on,
 * current-limited.
 */
export const SHORT_SHARE = 0.5;

/** Whether a finding concerns this card. */
export type Applies = 'yes' | 'no' | 'unknown';

/**
 * Why each powered check is closed. Checks that may be done are absent, and so are all unpowered ones.
 *
 * `observed` is what the bench has seen since the last treatment, and nothing from before it: work on a card makes its
 * rails unknown again. What only the owner said, or nobody could tell, counts as not measured.
 */
export function powerGate(
  knowledge: Pick<Knowledge, 'checks' | 'findings'>,
  observed: readonly FindingEvidence[],
  applies: (finding: Id) => Applies,
): ReadonlyMap<Id, readonly string[]> {
  const seen = new Map(observed.filter(({ origin }) => origin !== 'owner').map((item) => [item.finding, item]));
  const rails = railReasons(knowledge, seen, applies);
  const limited = limitedReason(knowledge, seen);
  const closed = new Map<Id, readonly string[]>();
  for (const check of knowledge.checks) {
    if (!check.powers) continue;
    const reasons = LIMITED_CHECKS.includes(check.id) ? rails : [...rails, ...limited];
    if (reasons.length > 0) closed.set(check.id, reasons);
  }
  return closed;
}

/**
 * Whether the bench has taken this: what only the owner said, or a reading above anything a card shows there (the probe beside
 * the rail, the meter not on ohms), is no measurement.
 */
export function isTaken({ neverAbove }: Finding, { origin, reading }: FindingEvidence): boolean {
  return origin !== 'owner' && !(neverAbove && reading && reading.value > neverAbove.value);
}

/** The rails that the gate asks for on this card, in the order of the knowledge. */
export function railsOf(knowledge: Pick<Knowledge, 'checks' | 'findings'>): readonly Finding[] {
  const yields = knowledge.checks.find(({ id }) => id === RESISTANCES_CHECK)?.yields ?? [];
  return knowledge.findings.filter(
    ({ id, states }) => yields.includes(id) && states.some((state) => state.id === SHORT_STATE),
  );
}

function railReasons(
  knowledge: Pick<Knowledge, 'checks' | 'findings' | 'sayings'>,
  seen: ReadonlyMap<Id, FindingEvidence>,
  applies: (finding: Id) => Applies,
): string[] {
  const rails = railsOf(knowledge).filter(({ id }) => applies(id) !== 'no');
  if (rails.length === 0) return [say(knowledge, 'no-power-no-rails')];
  const short = rails.filter(({ id, states }) => {
    const evidence = seen.get(id);
    return (
      evidence &&
      shareOf(
        evidence.weights,
        states.findIndex((state) => state.id === SHORT_STATE),
      ) > SHORT_SHARE
    );
  });
  const missing = rails.filter(({ id }) => !seen.has(id));
  const missed = rails.filter((rail) => {
    const evidence = seen.get(rail.id);
    return evidence && !isTaken(rail, evidence);
  });
  const reasons: string[] = [];
  if (missed.length > 0) reasons.push(say(knowledge, 'no-power-while-missed', { rails: names(missed) }));
  if (short.length > 0) reasons.push(say(knowledge, 'no-power-while-short', { rails: names(short) }));
  if (missing.length > 0) {
    const perhaps = missing.filter(({ id }) => applies(id) === 'unknown');
    const hint = perhaps.length > 0 ? say(knowledge, 'unless-none', { rails: names(perhaps) }) : '';
    reasons.push(say(knowledge, 'no-power-before-known', { rails: names(missing), hint }));
  }
  return reasons;
}

function limitedReason(
  knowledge: Pick<Knowledge, 'checks' | 'sayings'>,
  seen: ReadonlyMap<Id, FindingEvidence>,
): string[] {
  const limited = knowledge.checks.filter(({ id }) => LIMITED_CHECKS.includes(id));
  if (limited.some((check) => check.yields.some((finding) => seen.has(finding)))) return [];
  const checks = limited.map(({ name }) => say(knowledge, 'named', { name })).join(say(knowledge, 'or'));
  return [checks === '' ? say(knowledge, 'limited-first') : say(knowledge, 'limited-first-do', { checks })];
}

function names(findings: readonly Finding[]): string {
  return findings.map(({ name }) => name).join(', ');
}

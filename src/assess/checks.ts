/** Knowledge, shop and what is already known -> the checks still worth considering, with their needs; and which are shut for good. */
import type { Conditions } from '../belief/conditions.ts';
import { stateLikelihoods } from '../belief/predict.ts';
import type { CardCheck } from '../decision/card-problem.ts';
import type { FindingEvidence, Gathered } from '../evidence/evidence.ts';
import { isTaken, LIMITED_CHECKS, RESISTANCES_CHECK, SHORT_SHARE, SHORT_STATE } from '../evidence/safety.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say, sayThing } from '../knowledge/sayings.ts';
import type { Check, Finding, Id } from '../knowledge/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { likely } from './shop-and-card.ts';

export interface ChecksAtThisCard {
  /** not done yet and not shut by anything that another check could not lift */
  readonly open: readonly CardCheck[];
  readonly done: ReadonlySet<Id>;
  /** closed whatever the other checks find */
  readonly shut: ReadonlyMap<Id, readonly string[]>;
  /** of these, what this bench can never do on this card: no equipment, no price, nothing there to look at */
  readonly never: ReadonlySet<Id>;
}

/**
 * Sorts the checks. A check is done when the bench knows all it yields on this card; shut when the shop lacks what it needs,
 * a rule closes it, or something it requires is known to be otherwise; else open, perhaps behind other checks.
 */
export function checksAtThisCard(
  knowledge: Knowledge,
  shop: Shop,
  gathered: Gathered,
  conditions: Conditions,
): ChecksAtThisCard {
  const findings = new Map(knowledge.findings.map((finding) => [finding.id, finding]));
  const bench = new Map(
    gathered.present.filter((item) => isTaken(findings.get(item.finding)!, item)).map((item) => [item.finding, item]),
  );
  const preparationAt = new Map(knowledge.preparations.map((preparation, at) => [preparation.id, at]));
  const networkAt = new Map(knowledge.network.findings.map((node, at) => [node.id, at]));
  const limitedDone = LIMITED_CHECKS.some((id) =>
    knowledge.checks.find((check) => check.id === id)?.yields.some((finding) => bench.has(finding)),
  );
  const rails = railsNotShort(knowledge, gathered);
  const open: CardCheck[] = [];
  const done = new Set<Id>();
  const shut = new Map<Id, readonly string[]>();
  const never = new Set<Id>();
  for (const check of knowledge.checks) {
    const here = check.yields.filter((finding) => gathered.applicable.has(finding));
    const unknown = here.filter((finding) => !bench.has(finding));
    if (here.length > 0 && unknown.length === 0) {
      done.add(check.id);
      continue;
    }
    const needs = [...check.requires, ...(check.powers ? rails : [])];
    const unable = [
      ...(here.length === 0 ? [say(knowledge, 'nothing-to-look-at')] : []),
      ...lackingFor(knowledge, shop, check),
    ];
    if (unable.length > 0) never.add(check.id);
    const reasons = [
      ...unable,
      ...closedByRules(gathered, check),
      ...saidOnce(needs, rails).flatMap((need) =>
        knownOtherwise(need, bench.get(need.finding), findings.get(need.finding)),
      ),
    ];
    if (reasons.length > 0) {
      shut.set(check.id, [...new Set(reasons)]);
      continue;
    }
    open.push({
      id: check.id,
      minutes: check.minutes.likely,
      price: priceOfService(shop, check) ?? 0,
      preparations: check.preparations.map((preparation) => preparationAt.get(preparation)!),
      harm: check.risk?.p ?? 0,
      findings: unknown.map((id) => ({
        id,
        states: findings.get(id)!.states.map((state) => state.id),
        likelihood: stateLikelihoods(knowledge.network, networkAt.get(id)!, conditions),
      })),
      requires: uniqueNeeds(needs)
        .filter((need) => !bench.has(need.finding) && gathered.applicable.has(need.finding))
        .map((need) => ({
          finding: need.finding,
          states: need.states.map((state) =>
            findings.get(need.finding)!.states.findIndex((known) => known.id === state),
          ),
        })),
      afterOneOf: check.powers && !limitedDone && !LIMITED_CHECKS.includes(check.id) ? LIMITED_CHECKS : [],
    });
  }
  return { open, done, shut, never };
}

interface Need {
  readonly finding: Id;
  readonly states: readonly Id[];
  readonly because: string;
}

/** The power gate as needs: every rail of this card known, and not short. */
function railsNotShort(knowledge: Knowledge, gathered: Gathered): Need[] {
  const rails = knowledge.checks.find((check) => check.id === RESISTANCES_CHECK)?.yields ?? [];
  return rails
    .filter((finding) => gathered.applicable.has(finding))
    .map((finding) => {
      const known = knowledge.findings.find((item) => item.id === finding)!;
      return {
        finding,
        states: known.states.map((state) => state.id).filter((state) => state !== SHORT_STATE),
        because: say(knowledge, 'no-power-while-short', { rails: known.name }),
      };
    });
}

/** The power gate names a rail that is short; a check's own demand for that rail would ask for what is known. */
function saidOnce(needs: readonly Need[], rails: readonly Need[]): readonly Need[] {
  const asRails = rails.filter((rail) => needs.includes(rail));
  return needs.filter((need) => asRails.includes(need) || !asRails.some(({ finding }) => finding === need.finding));
}

/** Several needs on one finding: only the states that suit all of them. */
function uniqueNeeds(needs: readonly Need[]): Need[] {
  const merged = new Map<Id, Need>();
  for (const need of needs) {
    const before = merged.get(need.finding);
    merged.set(
      need.finding,
      before ? { ...need, states: need.states.filter((state) => before.states.includes(state)) } : need,
    );
  }
  return [...merged.values()];
}

function knownOtherwise(need: Need, evidence: FindingEvidence | undefined, finding: Finding | undefined): string[] {
  if (!evidence || !finding) return [];
  const total = evidence.weights.reduce((sum, weight) => sum + weight, 0);
  const share = need.states.reduce(
    (sum, state) => sum + (evidence.weights[finding.states.findIndex((known) => known.id === state)] ?? 0) / total,
    0,
  );
  return share >= 1 - SHORT_SHARE ? [] : [need.because];
}

function lackingFor(knowledge: Knowledge, shop: Shop, check: Check): string[] {
  const missing = check.equipment.filter((item) => !shop.equipment.includes(item));
  const names = new Map(knowledge.bench.equipment.map((item) => [item.id, item.name]));
  return [
    ...missing.map((id) => say(knowledge, 'not-on-this-bench', { item: names.get(id) ?? id.replaceAll('-', ' ') })),
    ...(check.bought && priceOfService(shop, check) === null
      ? [say(knowledge, 'no-price-known', { parts: sayThing(knowledge, knowledge.bench.parts, check.bought.part) })]
      : []),
  ];
}

function closedByRules(gathered: Gathered, check: Check): string[] {
  return gathered.fired.flatMap(({ event }) =>
    event.type === 'close' && event.params.checks.includes(check.id) ? [event.params.reason] : [],
  );
}

function priceOfService(shop: Shop, check: Check): number | null {
  if (!check.bought) return 0;
  const price = shop.parts[check.bought.part];
  return price === undefined ? null : likely(price);
}

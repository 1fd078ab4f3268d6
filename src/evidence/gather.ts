/** A record and the knowledge in, the evidence out: facts, findings with weights, what rules say, what is closed. */
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Finding, Id, Rule, Window } from '../knowledge/schema.ts';
import { checkRecord } from '../record/check.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import { changesTheCard } from '../record/spans.ts';
import type { Shop } from '../shop/schema.ts';
import type { FindingEvidence, Gathered, RecordIssue, Segment } from './evidence.ts';
import { answeredFacts, factsAfterWork, seenFacts } from './facts.ts';
import { closeWhatMust } from './gates.ts';
import { foldObservations, mostSupported, scaled } from './observations.ts';
import { compileRules, factsOf, type Judged, type Known, type RuleSet } from './rules.ts';
import type { Applies } from './safety.ts';

export type Gathering =
  | { readonly kind: 'gathered'; readonly gathered: Gathered }
  | { readonly kind: 'bad-record'; readonly issues: readonly RecordIssue[] };

/**
 * Gathers the evidence of a record.
 *
 * First the card's facts choose windows and say which findings concern the card; then readings are graded and
 * observations folded; then what the bench found becomes facts (`seen-<finding>`), and all other rules run. All issues
 * of a bad record come back at once.
 */
export async function gatherEvidence(knowledge: Knowledge, shop: Shop, record: CardRecord): Promise<Gathering> {
  const rules = compiled(knowledge);
  const answered = answeredFacts(record.timeline);
  const [chosen, holds, mayHold] = await Promise.all([
    rules.windowChoice(answered),
    rules.applies(answered),
    rules.mayApply(answered),
  ]);
  const choosing = knowledge.rules.windowChoice.filter(({ id }) => chosen.has(id));
  const windows = chooseWindows(knowledge, choosing);
  const conditional = new Set(knowledge.findings.filter(({ appliesWhen }) => appliesWhen).map(({ id }) => id));
  const applies = (finding: Id): Applies =>
    !conditional.has(finding) || holds.has(finding) ? 'yes' : mayHold.has(finding) ? 'unknown' : 'no';

  const folded = foldObservations(record.timeline, {
    findings: knowledge.findings,
    windowFor: (finding) => windows.get(finding) ?? noWindow(knowledge, finding),
    quantityOf: (finding) => knowledge.windows.find((window) => window.finding === finding)?.quantity,
    notHere: (finding) => (applies(finding) === 'no' ? 'By what is recorded of this card, it has none.' : undefined),
    shop,
  });
  const issues = [...checkRecord(record, knowledge), ...folded.issues];
  if (issues.length > 0) return { kind: 'bad-record', issues };

  const first = folded.segments[0]?.findings ?? [];
  const facts = new Map([...answered, ...seenFacts(first, knowledge.findings)]);
  const present = folded.segments.at(-1)?.findings ?? [];
  // history speaks of the card as it arrived, gates of the card as it lies there now
  const now = new Map([
    ...factsAfterWork(answered, record.timeline, knowledge.remedies),
    ...seenFacts(present, knowledge.findings),
  ]);
  const fired = [...choosing, ...(await matching(knowledge, rules, facts, now))];
  const findings = withOwnerWords(knowledge, first, fired, applies);
  const damageThen = await damageAtTreatments(knowledge, rules, record, answered, folded.segments);
  const closed = closeWhatMust(knowledge, shop, present, applies, fired);
  return {
    kind: 'gathered',
    gathered: {
      facts,
      findings,
      present: folded.segments.length === 1 ? findings : present,
      history: fired.flatMap(({ id, event }) =>
        event.type === 'history'
          ? Object.entries(event.params.factors).map(([fault, factor]) => ({
              rule: id,
              fault,
              factor,
              spread: event.params.spread,
            }))
          : [],
      ),
      windows: new Map([...windows].filter((entry): entry is [Id, Window] => typeof entry[1] !== 'string')),
      applicable: new Set(knowledge.findings.map(({ id }) => id).filter((id) => applies(id) !== 'no')),
      closedChecks: closed.checks,
      closedRemedies: closed.remedies,
      damage: fired.flatMap(({ id, event }) =>
        event.type === 'damage'
          ? event.params.remedies.map((remedy) => ({
              rule: id,
              remedy,
              factor: event.params.factor,
              spread: event.params.spread,
            }))
          : [],
      ),
      cautions: [...new Set(fired.flatMap(({ event }) => (event.type === 'caution' ? [event.params.caution] : [])))],
      fired,
      segments: folded.segments,
      setAside: folded.setAside,
      damageThen,
    },
  };
}

interface Compiled {
  readonly windowChoice: RuleSet;
  readonly applies: RuleSet;
  readonly mayApply: RuleSet;
  readonly history: RuleSet;
  readonly ownerWords: RuleSet;
  readonly gates: RuleSet;
}

const compiledByKnowledge = new WeakMap<Knowledge, Compiled>();

function compiled(knowledge: Knowledge): Compiled {
  const known = compiledByKnowledge.get(knowledge);
  if (known) return known;
  const rules: Compiled = {
    windowChoice: compileRules(knowledge.rules.windowChoice),
    applies: compileRules(knowledge.findings.flatMap((finding) => applicability(finding, 'no-match'))),
    mayApply: compileRules(knowledge.findings.flatMap((finding) => applicability(finding, 'match'))),
    history: compileRules(knowledge.rules.history),
    ownerWords: compileRules(knowledge.rules.ownerWords),
    gates: compileRules(knowledge.rules.gates),
  };
  compiledByKnowledge.set(knowledge, rules);
  return rules;
}

/** When a finding concerns a card, as a rule; nothing where it concerns every card. */
function applicability({ id, appliesWhen: conditions }: Finding, unknown: 'match' | 'no-match'): Judged[] {
  if (!conditions) return [];
  return [{ id, conditions, unknownMeans: Object.fromEntries(factsOf(conditions).map((fact) => [fact, unknown])) }];
}

/** In the order of the knowledge, whatever order the engine took. */
async function matching(knowledge: Knowledge, rules: Compiled, facts: Known, now: Known): Promise<readonly Rule[]> {
  const [history, ownerWords, gates] = await Promise.all([
    rules.history(facts),
    rules.ownerWords(facts),
    rules.gates(now),
  ]);
  return [
    ...knowledge.rules.history.filter(({ id }) => history.has(id)),
    ...knowledge.rules.ownerWords.filter(({ id }) => ownerWords.has(id)),
    ...knowledge.rules.gates.filter(({ id }) => gates.has(id)),
  ];
}

/** What the gates made of each treatment's risk with what was known when it was done. */
async function damageAtTreatments(
  knowledge: Knowledge,
  rules: Compiled,
  record: CardRecord,
  answered: Known,
  segments: readonly Segment[],
): Promise<number[]> {
  const factors: number[] = [];
  let segment = 0;
  for (const [index, event] of record.timeline.entries()) {
    if (event.type === 'treated') {
      const then = new Map([
        ...factsAfterWork(answered, record.timeline.slice(0, index), knowledge.remedies),
        ...seenFacts(segments[segment]?.findings ?? [], knowledge.findings),
      ]);
      const fired = await rules.gates(then);
      factors.push(
        knowledge.rules.gates.reduce((product, { id, event: gate }) => {
          const raises = gate.type === 'damage' && gate.params.remedies.includes(event.remedy) && fired.has(id);
          return raises ? product * gate.params.factor : product;
        }, 1),
      );
    }
    if (changesTheCard(record.timeline, index)) segment += 1;
  }
  return factors;
}

/** The window of each finding; a sentence where two are claimed, since neither can be trusted then. */
function chooseWindows(knowledge: Knowledge, choosing: readonly Rule[]): Map<Id, Window | string> {
  const windows = new Map<Id, Window | string>();
  const claims = Map.groupBy(
    choosing.flatMap(({ event }) => (event.type === 'window' ? [event.params] : [])),
    ({ finding }) => finding,
  );
  for (const [finding, claimed] of claims) {
    const ids = [...new Set(claimed.map(({ window }) => window))];
    const window = knowledge.windows.find(({ id }) => id === ids[0]);
    if (ids.length > 1) windows.set(finding, `Two windows are claimed for this reading: ${ids.join(', ')}.`);
    else if (window) windows.set(finding, window);
  }
  return windows;
}

function noWindow({ rules, facts }: Knowledge, finding: Id): string {
  const asked = new Set(
    rules.windowChoice
      .filter(({ event }) => event.type === 'window' && event.params.finding === finding)
      .flatMap(({ conditions }) => factsOf(conditions)),
  );
  const names = facts.filter(({ id }) => asked.has(id)).map(({ name }) => name);
  if (names.length === 0) return 'Nothing here says what this reading should be.';
  return `What this reading should be depends on what is not known yet: ${names.join(', ')}.`;
}

/** Adds what the owner's words say about findings that neither the bench nor the owner's own answer speaks for. */
function withOwnerWords(
  knowledge: Knowledge,
  observed: readonly FindingEvidence[],
  fired: readonly Rule[],
  applies: (finding: Id) => Applies,
): readonly FindingEvidence[] {
  const seen = new Map(observed.map((item) => [item.finding, item]));
  const words = Map.groupBy(
    fired.flatMap(({ id, event }) => (event.type === 'evidence' ? [{ rule: id, ...event.params }] : [])),
    ({ finding }) => finding,
  );
  return knowledge.findings.flatMap((finding) => {
    const standing = seen.get(finding.id);
    if (standing) return [standing];
    const said = words.get(finding.id);
    if (!said || applies(finding.id) === 'no') return [];
    const weights = scaled(
      // A state that a rule does not name is one it says nothing about.
      finding.states.map(({ id }) => said.reduce((product, rule) => product * (rule.weights[id] ?? 1), 1)),
    );
    if (!weights.some((weight) => weight > 0)) return [];
    return [
      {
        finding: finding.id,
        weights,
        origin: 'owner' as const,
        state: mostSupported(weights, finding),
        rules: said.map(({ rule }) => rule),
      },
    ];
  });
}

/** What a fact is asked for, read off the rules that use it. */
import { comparisonsOf } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Rule } from '../knowledge/schema.ts';

export interface FactUse {
  /** names of the faults it makes likelier or less likely, those it moves most first */
  readonly faults: readonly string[];
  /** it decides which window a reading is held to, or whether one is taken */
  readonly readings: boolean;
  /** it opens or closes checks and repairs, or makes work riskier */
  readonly safety: boolean;
  /** it says what was seen before the card came in */
  readonly symptoms: boolean;
}

/** By id of the fact. The weight of a fault is the largest step in its odds that any rule on the fact makes. */
export function usesOfFacts(knowledge: Knowledge): ReadonlyMap<string, FactUse> {
  const names = new Map(knowledge.faults.map(({ id, name }) => [id, name]));
  const { history, ownerWords, windowChoice, gates } = knowledge.rules;
  const conditional = knowledge.findings.flatMap(({ appliesWhen }) =>
    appliesWhen ? [{ conditions: appliesWhen }] : [],
  );
  const uses = (rules: readonly Pick<Rule, 'conditions'>[], fact: string) =>
    rules.some((rule) => factsIn(rule).includes(fact));
  return new Map(
    knowledge.facts.map(({ id }) => {
      const steps = new Map(wornBy(knowledge, id).map((fault) => [fault, 0]));
      for (const rule of history) {
        if (rule.event.type !== 'history' || !factsIn(rule).includes(id)) continue;
        for (const [fault, factor] of Object.entries(rule.event.params.factors)) {
          steps.set(fault, Math.max(steps.get(fault) ?? 0, Math.abs(Math.log(factor))));
        }
      }
      const moved = [...steps].sort(([, a], [, b]) => b - a);
      return [
        id,
        {
          faults: moved.map(([fault]) => names.get(fault) ?? fault),
          readings: uses(windowChoice, id) || uses(conditional, id),
          safety: uses(gates, id),
          symptoms: uses(ownerWords, id),
        },
      ];
    }),
  );
}

const factsIn = ({ conditions }: Pick<Rule, 'conditions'>): readonly string[] =>
  comparisonsOf(conditions, 'conditions').map(({ comparison }) => comparison.fact);

/** Faults whose odds grow with the clock that this fact reads. */
function wornBy({ faults }: Knowledge, fact: string): readonly string[] {
  const clock = fact === 'age-years' ? 'years' : fact === 'hours-of-use' ? 'hours' : null;
  return faults.filter(({ wear }) => wear?.clock === clock && clock !== null).map(({ id }) => id);
}

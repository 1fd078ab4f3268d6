/** Whether a question concerns this card at all. It is asked as long as the facts do not speak against it. */
import type { RuleConditions } from '../knowledge/schema.ts';
import type { FactAnswer } from './desk.ts';

/** Three-valued: undefined where a fact that matters is unknown. */
export function holds(
  conditions: RuleConditions,
  factOf: (fact: string) => FactAnswer | undefined,
): boolean | undefined {
  if ('all' in conditions) return every(conditions.all.map((part) => holds(part, factOf)));
  if ('any' in conditions) return opposite(every(conditions.any.map((part) => opposite(holds(part, factOf)))));
  if ('not' in conditions) return opposite(holds(conditions.not, factOf));
  const fact = factOf(conditions.fact);
  if (fact === undefined || fact === null) return undefined;
  return compare(fact, conditions.operator, conditions.value);
}

function every(parts: readonly (boolean | undefined)[]): boolean | undefined {
  if (parts.includes(false)) return false;
  return parts.includes(undefined) ? undefined : true;
}

const opposite = (truth: boolean | undefined): boolean | undefined => (truth === undefined ? undefined : !truth);

type Value = string | number | boolean | readonly (string | number)[];

function compare(fact: NonNullable<FactAnswer>, operator: string, value: Value): boolean | undefined {
  const within = (list: unknown, member: unknown): boolean => Array.isArray(list) && list.includes(member);
  switch (operator) {
    case 'equal':
      return fact === value;
    case 'notEqual':
      return fact !== value;
    case 'in':
      return within(value, fact);
    case 'notIn':
      return !within(value, fact);
    case 'contains':
      return within(fact, value);
    case 'doesNotContain':
      return !within(fact, value);
    case 'lessThan':
      return Number(fact) < Number(value);
    case 'lessThanInclusive':
      return Number(fact) <= Number(value);
    case 'greaterThan':
      return Number(fact) > Number(value);
    case 'greaterThanInclusive':
      return Number(fact) >= Number(value);
    default:
      return undefined;
  }
}

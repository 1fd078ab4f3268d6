/**
 * A decision problem of the size and make of a card on the bench, for measuring planners: sets of faults, checks as
 * noisy-MAX findings over them, courses of remedies as stops, shared preparations, checks that open others.
 * Invented numbers; equal seeds give equal problems.
 */
import type { DecisionProblem, StopAction, TestAction } from '../../src/decision/problem.ts';
import type { Random } from '../../src/decision/random.ts';

export interface CardSize {
  readonly faults: number;
  readonly conditions: number;
  readonly checks: number;
  readonly courses: number;
}
export const USUAL_CARD: CardSize = { faults: 40, conditions: 220, checks: 15, courses: 45 };

const WORKING_VALUE = 260;
const MONEY_PER_MINUTE = 0.8;

/**
 * Twelve faults stand out after the symptoms, the rest are unlikely; singles and pairs of them are the conditions, the
 * likeliest kept. A check costs 2 to 20 minutes, has 2 to 8 outcomes ordered from normal to abnormal, and 3 to 12
 * faults move it. Check 0 (resistances) opens checks 3 to 10 unless its worst outcome came, check 1 (limited supply)
 * opens 5 to 10. A remedy costs 15 to 120 and cures its one to four faults with .6 to .95.
 */
export function syntheticCard(random: Random, size: CardSize = USUAL_CARD): DecisionProblem {
  const between = (low: number, high: number) => low + (high - low) * random.next();
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  const faults = Array.from({ length: size.faults }, (_, fault) => fault);
  const odds = faults.map((fault) => (fault < 12 ? between(0.02, 0.6) : between(0.0005, 0.03)));
  const sets: { members: number[]; weight: number }[] = [{ members: [], weight: between(0.02, 0.3) }];
  for (const one of faults) {
    sets.push({ members: [one], weight: odds[one]! });
    for (let other = one + 1; other < size.faults; other++) {
      sets.push({ members: [one, other], weight: 0.25 * odds[one]! * odds[other]! });
    }
  }
  sets.sort((one, other) => other.weight - one.weight);
  const kept = sets.slice(0, size.conditions);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);

  const tests = Array.from({ length: size.checks }, (_, index): TestAction => {
    const count = index === 0 ? 8 : whole(2, 6);
    const cumulative = (sharpness: number): number[] => {
      const weights = Array.from({ length: count }, () => random.next() ** sharpness);
      const sum = weights.reduce((all, weight) => all + weight, 0);
      let so = 0;
      return weights.map((weight, x) => {
        so += weight / sum;
        return x === count - 1 ? 1 : so;
      });
    };
    const leak = Array.from({ length: count }, (_, x) => (x === count - 1 ? 1 : 0.93 + (0.06 * (x + 1)) / count));
    const movers = new Map<number, number[]>();
    const moved = whole(3, 12);
    for (let each = 0; each < moved; each++) {
      const fault = each < 3 ? whole(0, 11) : whole(0, size.faults - 1);
      movers.set(fault, cumulative(6));
    }
    const likelihood = Array.from({ length: count }, () => new Float64Array(kept.length));
    kept.forEach(({ members }, c) => {
      let below = 0;
      for (let x = 0; x < count; x++) {
        const at = members.reduce((product, fault) => product * (movers.get(fault)?.[x] ?? 1), leak[x]!);
        likelihood[x]![c] = at - below;
        below = at;
      }
    });
    const requires = [];
    if (index >= 3 && index <= 10) requires.push({ test: 'check-0', outcomes: Array.from({ length: 7 }, (_, x) => x) });
    if (index >= 5 && index <= 10) requires.push({ test: 'check-1', outcomes: [0] });
    return {
      kind: 'test',
      id: `check-${index}`,
      cost: MONEY_PER_MINUTE * between(2, 20),
      preparations: index % 3 === 0 ? [] : [whole(0, 5)],
      outcomes: Array.from({ length: count }, (_, x) => `state-${x}`),
      likelihood,
      requires,
    };
  });

  const remedies = Array.from({ length: 20 }, (_, index) => {
    const cures = new Map<number, number>();
    const addressed = whole(1, 4);
    for (let each = 0; each < addressed; each++) {
      cures.set(each === 0 ? index % 12 : whole(0, size.faults - 1), between(0.6, 0.95));
    }
    return { cost: between(15, 120), cures, preparations: [whole(0, 5)] };
  });
  const works = (course: readonly number[], members: readonly number[]) =>
    members.reduce((product, fault) => {
      const stays = course.reduce((left, step) => left * (1 - (remedies[step]!.cures.get(fault) ?? 0)), 1);
      return product * (1 - stays);
    }, 1);
  const courses = Array.from({ length: size.courses }, (_, index): StopAction => {
    const course = index < 20 ? [index] : [whole(0, 19), whole(0, 19)];
    const payoff = Float64Array.from(kept, ({ members }) => {
      const afterFirst = works(course.slice(0, 1), members);
      const later = course.length > 1 ? (1 - afterFirst) * remedies[course[1]!]!.cost : 0;
      return WORKING_VALUE * works(course, members) - remedies[course[0]!]!.cost - later;
    });
    return { kind: 'stop', id: `course-${index}`, payoff, preparations: remedies[course[0]!]!.preparations };
  });
  const flat = (id: string, pays: number): StopAction => ({
    kind: 'stop',
    id,
    payoff: new Float64Array(kept.length).fill(pays),
    preparations: [],
  });
  const returned: StopAction = {
    ...flat('return', -20),
    payoff: Float64Array.from(kept, ({ members }) => (members.length === 0 ? WORKING_VALUE : -20)),
  };
  return {
    conditions: kept.map(({ members }) =>
      members.length === 0 ? 'sound' : members.map((fault) => `f${fault}`).join('+'),
    ),
    prior: Float64Array.from(kept, ({ weight }) => weight / total),
    preparations: Array.from({ length: 6 }, (_, index) => ({
      id: `preparation-${index}`,
      cost: MONEY_PER_MINUTE * between(2, 10),
    })),
    stops: [...courses, returned, flat('leave', 0), flat('part-out', 12)],
    tests,
    remedies: [],
  };
}

/** What would have to change for another verdict to win: exact, because surplus and margin are linear in each of these. */
import type { CardModel } from './card-model.ts';
import type { Plan } from './plan.ts';
import { choosePlan, subjectOf } from './plans.ts';
import type { Verdict } from './treatment.ts';

export interface BreakEven {
  readonly what: 'working-value' | 'chance-works' | 'price' | 'parts' | 'labour-minutes';
  readonly now: number;
  /** where the verdict changes; null: it does not within the bounds */
  readonly at: number | null;
  /** verdict beyond it */
  readonly becomes: Verdict | null;
}

export interface BreakEvens {
  /** `subjectOf` the plans: whose chance, price, parts and minutes these are */
  readonly subject: Plan | null;
  readonly breakEvens: readonly BreakEven[];
}

/** Money and minutes are looked at from nothing up to this many times what they are now. */
export const FURTHEST_MULTIPLE = 10;

/** What a plan has beyond its margin (a stop: its surplus), as a line in x with x = 0 now. */
interface Line {
  readonly verdict: Verdict;
  readonly stop: boolean;
  readonly worth: number;
  readonly slope: number;
}

/**
 * Break-evens of the verdict `choosePlan` gives, one by one with everything else as it is:
 *
 * - working value: V, for every plan;
 * - chance it works: of the subject, its share that holds and its expected costs as they are;
 * - price: for a justified subject the ceiling (`now` is the floor), beyond which the owner is better off leaving the card;
 *   otherwise the floor the shop needs (`now` is the ceiling, the most the owner can pay);
 * - parts: expected cost of the subject's parts, their prices changed in proportion wherever they are used;
 * - labour minutes: expected bench minutes of the subject's steps without preparations, in proportion likewise.
 *
 * The direction that threatens the verdict (or, for scrap, that would rescue the card) is looked at first, then the other.
 * Exact among the plans given. Cost: pairs of plans, for each of the four lines.
 */
export function breakEvens(model: CardModel, plans: readonly Plan[]): BreakEvens {
  const chosen = choosePlan(plans);
  const subject = subjectOf(plans);
  if (!subject) return { subject: null, breakEvens: [] };
  const { money } = model;
  // Upwards is good news for value and chance, bad news for costs.
  const good: Direction[] = chosen.verdict === 'scrap' ? ['up', 'down'] : ['down', 'up'];
  const bad: Direction[] = [good[1]!, good[0]!];
  const share = money.margin.shareOfCost;
  const rate = money.labourPerHour / 60;

  const alongValue = linesOf(plans, (plan) => ({ slope: plan.chances.held, cost: 0 }));
  const value = firstChange(alongValue, good, -money.working, FURTHEST_MULTIPLE * money.working - money.working);

  const { works, held, kept } = subject.chances;
  const chance =
    works > 0
      ? firstChange(
          linesOf(plans, (plan) => {
            if (plan !== subject) return NONE;
            const rise = ((money.working - money.partsAfterWork) * held) / works;
            if (plan.stop !== null)
              return {
                slope: rise + money.partsAfterWork - money.asIs + money.comebackCost + money.wronglySoundCost,
                cost: 0,
              };
            const comeback = (money.comebackCost * (works - kept)) / works;
            return { slope: rise - comeback, cost: comeback };
          }),
          good,
          -works,
          1 - works,
        )
      : NO_CHANGE;

  const pieces = new Set(subject.steps.flatMap((step) => model.treatments[step]!.parts));
  const partsOf = (plan: Plan) =>
    expected(plan, (step) =>
      model.treatments[step]!.parts.reduce((sum, part) => sum + (pieces.has(part) ? money.partPrices[part]! : 0), 0),
    );
  const parts = scaled(partsOf(subject), (plan) => partsOf(plan));

  const minutesOf = (plan: Plan) =>
    plan.stop === null
      ? expected(plan, (step) => (subject.steps.includes(step) ? model.treatments[step]!.minutes : 0))
      : plan === subject
        ? plan.minutes
        : 0;
  const minutes = scaled(minutesOf(subject), (plan) => minutesOf(plan) * rate);

  /** x is the change of the multiple; reported as the subject's own amount */
  function scaled(now: number, costOf: (plan: Plan) => number): Change {
    if (!(now > 0)) return NO_CHANGE;
    const lines = linesOf(plans, (plan) => ({ slope: -costOf(plan), cost: costOf(plan) }));
    const change = firstChange(lines, bad, -1, FURTHEST_MULTIPLE - 1);
    return change.at === null ? change : { ...change, at: change.at * now };
  }

  function linesOf(all: readonly Plan[], along: (plan: Plan) => { slope: number; cost: number }): Line[] {
    return all.map((plan) => {
      const { slope, cost } = along(plan);
      const stop = plan.stop !== null;
      return {
        verdict: plan.verdict,
        stop,
        worth: plan.surplus - plan.margin,
        slope: stop ? slope : slope - share * cost,
      };
    });
  }

  const result = (what: BreakEven['what'], now: number, change: Change): BreakEven => ({
    what,
    now,
    at: change.at === null ? null : now + change.at,
    becomes: change.becomes,
  });
  return {
    subject,
    breakEvens: [
      result('working-value', money.working, value),
      result('chance-works', works, chance),
      ...priceBreakEven(subject),
      result('parts', partsOf(subject), parts),
      result('labour-minutes', minutesOf(subject), minutes),
    ],
  };
}

type Direction = 'up' | 'down';
interface Change {
  readonly at: number | null;
  readonly becomes: Verdict | null;
}
const NO_CHANGE: Change = { at: null, becomes: null };
const NONE = { slope: 0, cost: 0 };

/** The change of verdict nearest to x = 0, looking in the first direction and, failing that, in the second. */
function firstChange(
  lines: readonly Line[],
  directions: readonly Direction[],
  lowest: number,
  highest: number,
): Change {
  const now = verdictAt(lines, 0);
  const points: number[] = [];
  lines.forEach((a, i) => {
    if (!a.stop && a.slope !== 0) points.push(-a.worth / a.slope);
    for (let j = 0; j < i; j++) {
      const b = lines[j]!;
      if (a.slope !== b.slope) points.push((b.worth - a.worth) / (a.slope - b.slope));
    }
  });
  for (const direction of directions) {
    const sign = direction === 'up' ? 1 : -1;
    const end = direction === 'up' ? highest : -lowest;
    // Between two neighbouring points no two lines change places, so one look in the middle tells.
    const ahead = [0, ...points.map((x) => sign * x).filter((x) => x > 0 && x < end), end].sort((a, b) => a - b);
    for (let k = 0; k + 1 < ahead.length; k++) {
      if (ahead[k + 1]! <= ahead[k]!) continue;
      const verdict = verdictAt(lines, (sign * (ahead[k]! + ahead[k + 1]!)) / 2);
      if (verdict !== now) return { at: sign * ahead[k]!, becomes: verdict };
    }
  }
  return NO_CHANGE;
}

function verdictAt(lines: readonly Line[], x: number): Verdict {
  return choosePlan(
    lines.map(({ verdict, stop, worth, slope }) => {
      const surplus = worth + slope * x;
      return { verdict, surplus, margin: 0, justified: stop || surplus >= 0 };
    }),
  ).verdict;
}

function priceBreakEven(subject: Plan): BreakEven[] {
  const { floor, ceiling, justified, verdict } = subject;
  if (floor === null || ceiling === null) return [];
  return justified
    ? [{ what: 'price', now: floor, at: ceiling, becomes: 'scrap' }]
    : [{ what: 'price', now: ceiling, at: floor, becomes: verdict }];
}

function expected(plan: Plan, of: (step: number) => number): number {
  return plan.steps.reduce((sum, step, j) => sum + plan.chances.reached[j]! * of(step), 0);
}

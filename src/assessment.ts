/**
 * The value that everything shows: the command line, the wizard, the owner's page. It holds what is needed to recompute
 * it by hand. `assessmentSchema()` publishes its JSON Schema.
 */
import { z } from 'zod';
import { Id, SITES } from './knowledge/schema.ts';

const Chance01 = z.number().min(0).max(1);
/** central 90 % range over parameter draws; absent until draws were made */
const Range = z.strictObject({ low: z.number(), high: z.number() });

export const VERDICTS = ['reflow', 'reball', 'component-swap', 'core-swap', 'service', 'return', 'scrap'] as const;
export const VerdictKind = z.enum(VERDICTS);
export type VerdictKind = z.infer<typeof VerdictKind>;

const Reading = z.strictObject({
  typed: z.string(),
  /** null: over range */
  value: z.number().nullable(),
  uncertainty: z.number().nullable(),
  unit: z.string(),
  window: Id,
  windowName: z.string(),
  edges: z.array(z.number()),
  bands: z.array(Id),
  recentred: z.boolean(),
});

const Window = z.strictObject({
  finding: Id,
  window: Id,
  name: z.string(),
  unit: z.string(),
  edges: z.array(z.number()),
  bands: z.array(Id),
});

export const EvidenceItem = z.strictObject({
  finding: Id,
  name: z.string(),
  origin: z.enum(['measured', 'seen', 'owner']),
  state: Id,
  stateName: z.string(),
  states: z.array(Id),
  weights: z.array(Chance01),
  contradicts: Id.optional(),
  reading: Reading.optional(),
});
export type EvidenceItem = z.infer<typeof EvidenceItem>;

export const RankedFault = z.strictObject({
  fault: Id,
  site: z.enum(SITES),
  name: z.string(),
  owner: z.string(),
  /** P(fault active | everything recorded) */
  chance: Chance01,
  /** P(fault active | history only) */
  before: Chance01,
  interval: Range.optional(),
  /** weight of evidence of each finding, strongest first, in decibels: 10 log10 (odds with it / odds without it) */
  evidence: z.array(
    z.strictObject({ finding: Id, name: z.string(), state: Id, stateName: z.string(), decibels: z.number() }),
  ),
});
export type RankedFault = z.infer<typeof RankedFault>;

export const Option = z.strictObject({
  /** remedies in the order they are tried, or one stop */
  id: z.string(),
  steps: z.array(Id),
  stepNames: z.array(z.string()),
  verdict: VerdictKind,
  name: z.string(),
  owner: z.string(),
  minutes: z.number(),
  /** expected real cost to the shop, split */
  cost: z.strictObject({
    total: z.number(),
    labour: z.number(),
    parts: z.number(),
    consumables: z.number(),
    comeback: z.number(),
  }),
  heatCycles: z.number(),
  /** the card works at hand-back */
  works: Chance01,
  worksInterval: Range.optional(),
  /** the card works at hand-back and still at the horizon */
  holds: Chance01,
  holdsInterval: Range.optional(),
  /** E[value at the end] - E[real costs] - as-is value */
  surplus: z.number(),
  surplusInterval: Range.optional(),
  /** least price that covers the shop; null for stops and own stock, or where the card never works */
  floor: z.number().nullable(),
  /** most the owner can pay and be no worse off; null as above */
  ceiling: z.number().nullable(),
  margin: z.number(),
  justified: z.boolean(),
  /** a cheaper option of another kind that works wherever this one does, by name; left out where there is none */
  outdoneBy: z.string().optional(),
  /** checks that must come before it, by name; left out where nothing is owed */
  waitsFor: z.array(z.string()).optional(),
  /** it works on cards that were sound anyway and mends hardly any: never advised, whatever its surplus; left out elsewhere */
  mendsTooLittle: z.literal(true).optional(),
});
export type Option = z.infer<typeof Option>;

export const BreakEven = z.strictObject({
  what: z.enum(['working-value', 'chance-works', 'price', 'parts', 'labour-minutes']),
  /** the value at which the verdict changes; null: it never does within sensible bounds */
  at: z.number().nullable(),
  now: z.number(),
  /** verdict beyond it */
  becomes: VerdictKind.nullable(),
  sentence: z.string(),
});
export type BreakEven = z.infer<typeof BreakEven>;

export const CheckAdvice = z.strictObject({
  check: Id,
  name: z.string(),
  purpose: z.string(),
  minutes: z.number(),
  /** money of minutes, preparations not yet made, bought service and risk */
  cost: z.number(),
  /** expected gain in surplus from its result alone, before cost (expected value of sample information) */
  gain: z.number(),
  /** gain - cost */
  worth: z.number(),
  state: z.enum(['worth-it', 'opens-others', 'not-worth-its-minutes', 'cannot-change-the-decision', 'closed', 'done']),
  reasons: z.array(z.string()),
  /** what each result would do; likeliest first */
  outcomes: z.array(
    z.strictObject({
      label: z.string(),
      chance: Chance01,
      verdict: VerdictKind,
      option: z.string(),
      topFault: Id.nullable(),
    }),
  ),
});
export type CheckAdvice = z.infer<typeof CheckAdvice>;

export const Sensitivity = z.strictObject({
  draws: z.number().int(),
  seed: z.number().int(),
  /** share of draws in which the same verdict wins */
  stands: Chance01,
  /** share of draws each verdict wins */
  winners: z.array(z.strictObject({ verdict: VerdictKind, share: Chance01 })),
  /** inputs by how far they move the surplus of the best option between their 5 % and 95 % points */
  tornado: z.array(
    z.strictObject({
      input: z.string(),
      name: z.string(),
      low: z.number(),
      high: z.number(),
      atLow: z.number(),
      atHigh: z.number(),
      unit: z.string(),
    }),
  ),
});
export type Sensitivity = z.infer<typeof Sensitivity>;

const Closed = z.strictObject({ id: Id, name: z.string(), reasons: z.array(z.string()) });

/** Enough of every plan the verdict is chosen from to form it anew with other money or other work. */
export const WhatIf = z.strictObject({
  money: z.strictObject({
    working: z.number(),
    asIs: z.number(),
    partsAfterWork: z.number(),
    labourPerHour: z.number(),
    consumablesPerHeatCycle: z.number(),
    comebackCost: z.number(),
    wronglySoundCost: z.number(),
    feeWhenNotFixed: z.number(),
    margin: z.strictObject({ fixed: z.number(), shareOfCost: z.number() }),
    partPrices: z.array(z.number()),
    /** what each of `partPrices` is the price of */
    partIds: z.array(Id).optional(),
    ownStock: z.boolean(),
  }),
  /** best first */
  plans: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      verdict: VerdictKind,
      stop: z.enum(['working-if-sound', 'as-is', 'parts']).nullable(),
      works: z.number(),
      held: z.number(),
      /** works at hand-back and does not come back within the warranty */
      kept: z.number(),
      /** expected, each step weighed by the chance that it is reached */
      workMinutes: z.number(),
      preparationMinutes: z.number(),
      heatCycles: z.number(),
      /** `part` is its place in `money.partPrices` */
      parts: z.array(z.strictObject({ part: z.number().int(), pieces: z.number() })),
    }),
  ),
  /** the plan that break-evens are about; null: there is none */
  subject: z.string().nullable(),
});
export type WhatIf = z.infer<typeof WhatIf>;

/**
 * A repair as a second attempt. `least` and `most`: what must have been paid for the first one so that trying again under
 * warranty suits shop and owner better than the money back; null where no price is ever kept.
 */
const Attempt = z.strictObject({ option: Option, least: z.number().nullable(), most: z.number().nullable() });

/** What a second attempt starts from. */
export const SecondAttempt = z.strictObject({
  /** heat cycles of the board: those it came with, null where nobody knows, and those this bench spent */
  heatCycles: z.strictObject({ before: z.number().nullable(), here: z.number() }),
  /** chance that the last work did damage when it was done, and that it would if it were done again, with what moves that now */
  damage: z.strictObject({
    lastTime: Chance01,
    onceMore: Chance01,
    because: z.array(z.strictObject({ rule: Id, about: z.string(), factor: z.number() })),
  }),
  /** the same work once more; null where it is closed, `againClosed` saying why */
  again: Attempt.nullable(),
  againClosed: z.array(z.string()),
  /** the repair the verdict advises; null where it advises none */
  advised: Attempt.nullable(),
  /** null: it never left the bench, has not come back, or there is none */
  warranty: z
    .strictObject({
      days: z.number(),
      from: z.string(),
      until: z.string(),
      /** days in service, or until it was brought back where nobody can tell */
      failedAfter: z.number(),
      running: z.boolean(),
    })
    .nullable(),
  /** what the owner has paid: for the last work, and in all; spent either way. null: not written down */
  paid: z.strictObject({ last: z.number().nullable(), inAll: z.number().nullable() }),
  /** what one more comeback costs the shop besides bench time */
  comebackCost: z.number(),
  /** under warranty: what suits both sides best; null: no warranty runs, or it hangs on what was paid and nobody wrote that down */
  settlement: z.enum(['try-again', 'refund', 'refund-and-offer', 'not-the-card']).nullable(),
});
export type SecondAttempt = z.infer<typeof SecondAttempt>;

export const Assessed = z.strictObject({
  kind: z.literal('assessed'),
  format: z.literal(1),
  knowledge: z.string(),
  record: Id,
  title: z.string(),
  invented: z.boolean(),
  currency: z.string(),
  ownStock: z.boolean(),
  horizonDays: z.number(),
  warrantyDays: z.number(),
  evidence: z.array(EvidenceItem),
  /** findings that concern this card: all but those that what is recorded of it rules out */
  applicable: z.array(Id),
  /** the window each reading is held to, taken or not; edges in the unit, bands from below to above */
  windows: z.array(Window),
  /** Jensen's conflict: log2 (product of the single chances / joint chance); above 0 the findings disagree more than by chance */
  strain: z.strictObject({
    bits: z.number(),
    against: z.array(z.strictObject({ finding: Id, name: z.string(), bits: z.number() })),
  }),
  prior: z.strictObject({
    kappa: z.number(),
    /** weight of the condition without any fault; conditions with faults weigh the product of their odds */
    empty: z.number(),
    maxFaults: z.number().int(),
    conditions: z.number().int(),
    excluded: Chance01,
    none: Chance01,
    several: Chance01,
  }),
  /** P(all evidence) */
  chanceOfEvidence: z.number(),
  ranking: z.array(RankedFault),
  sites: z.array(z.strictObject({ site: z.enum(SITES), chance: Chance01 })),
  /** P(no fault of the card is active) */
  sound: Chance01,
  /** most probable sets of faults */
  conditions: z.array(z.strictObject({ faults: z.array(Id), chance: Chance01 })),
  inseparable: z.array(z.strictObject({ faults: z.tuple([Id, Id]), check: Id.nullable() })),
  options: z.array(Option),
  closedRemedies: z.array(Closed),
  verdict: z.strictObject({
    kind: VerdictKind,
    option: z.string(),
    name: z.string(),
    justified: z.boolean(),
    /** one sentence, for a technician */
    because: z.string(),
    reasons: z.array(z.string()),
    breakEvens: z.array(BreakEven),
  }),
  next: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('check'), check: Id, because: z.string() }),
    z.strictObject({ kind: z.literal('act'), option: z.string(), because: z.string() }),
  ]),
  checks: z.array(CheckAdvice),
  certificate: z.strictObject({
    method: z.enum(['exact', 'search']),
    /** expected surplus of deciding now */
    now: z.number(),
    /** expected surplus of the plan found, checks included */
    value: z.number(),
    /** no plan can do better than this */
    upperBound: z.number(),
    /** posterior mass of the conditions the planner looked at */
    coverage: Chance01,
  }),
  sensitivity: Sensitivity.optional(),
  whatIf: WhatIf.optional(),
  /** after work on the card: what was done last, and why it fails again if it does */
  comeback: z
    .strictObject({
      lastRemedy: Id,
      lastRemedyName: z.string(),
      cameBack: z.boolean(),
      /** how often since the last work; more than once: it went out again with nothing done to it */
      returns: z.number().int().nonnegative(),
      /** days it worked; null: can't tell, or it is still on the bench */
      workedDays: z.number().nullable(),
      /** they sum to one; null where the card works as far as anybody knows */
      attributions: z
        .strictObject({
          'wrong-thing': Chance01,
          'did-not-take': Chance01,
          relapsed: Chance01,
          damaged: Chance01,
          'new-fault': Chance01,
        })
        .nullable(),
      /** chance that nothing is active at the moment */
      nothingActive: Chance01,
      /** the first diagnosis, as it was made on arrival and as it looks in the light of everything since */
      firstDiagnosis: z.array(z.strictObject({ fault: Id, name: z.string(), onArrival: Chance01, restated: Chance01 })),
      /** chance dropped on the way because it was too small to follow */
      pruned: Chance01,
      second: SecondAttempt,
    })
    .optional(),
  cautions: z.array(z.strictObject({ id: Id, text: z.string() })),
  /** what a brute-force recomputation needs besides the exported knowledge */
  audit: z.strictObject({
    odds: z.record(Id, z.number()),
    factors: z.array(z.strictObject({ fault: Id, factor: z.number(), rule: z.string() })),
    weights: z.record(Id, z.array(z.number())),
    remedies: z.array(Id),
    /** times to relapse that the shop's own records teach, where this assessment reckons with them in place of the book's */
    relapse: z.array(
      z.strictObject({
        fault: Id,
        /** after this remedy alone, in the fold; null: after any, in the plans */
        remedy: Id.nullable(),
        medianDays: z.number().positive(),
        shape: z.number().positive(),
        /** equivalent sample size: the prior's and the events */
        n: z.number().positive(),
        /** relapses counted, and cards that were masked, in parts of cards */
        events: z.number().nonnegative(),
        cards: z.number().positive(),
        since: z.iso.date(),
        /** the book's, from which it was learnt */
        prior: z.strictObject({
          medianDays: z.number().positive(),
          shape: z.number().positive(),
          n: z.number().positive(),
        }),
      }),
    ),
  }),
});
export type Assessed = z.infer<typeof Assessed>;

export const Contradiction = z.strictObject({
  kind: z.literal('contradiction'),
  format: z.literal(1),
  record: Id,
  title: z.string(),
  /** null: an event of the timeline excludes what went before */
  finding: Id.nullable(),
  against: z.array(Id),
  sentence: z.string(),
  evidence: z.array(EvidenceItem),
  applicable: z.array(Id),
  windows: z.array(Window),
});
export const BadRecord = z.strictObject({
  kind: z.literal('bad-record'),
  format: z.literal(1),
  issues: z.array(
    z.strictObject({
      path: z.string(),
      wrong: z.string(),
      todo: z.string(),
      /** by which refusal, and of what it speaks: to say it in another language */
      told: z
        .strictObject({ id: z.string(), about: z.record(z.string(), z.union([z.string(), z.number()])) })
        .optional(),
      typed: z.string().optional(),
    }),
  ),
});

export const Assessment = z.discriminatedUnion('kind', [Assessed, Contradiction, BadRecord]);
export type Assessment = z.infer<typeof Assessment>;

/** Options of one assessment run. */
export interface AssessOptions {
  /** most concurrent faults, K; default 3 */
  readonly maxFaults?: number;
  /** parameter draws for `sensitivity`; 0 or left out: none */
  readonly draws?: number;
  readonly seed?: number;
  /** false: leave out what only the next check needs */
  readonly plan?: boolean;
}

/** What `next` answers: the part of an assessment about what to do now. */
export const NextAnswer = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('next'),
    format: z.literal(1),
    record: Id,
    next: Assessed.shape.next,
    checks: Assessed.shape.checks,
    certificate: Assessed.shape.certificate,
  }),
  Contradiction,
  BadRecord,
]);
export type NextAnswer = z.infer<typeof NextAnswer>;

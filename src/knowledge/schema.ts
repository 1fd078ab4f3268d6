/**
 * The shape of every file under `rules/`. Parsing happens here once; what passes is trusted by type from then on.
 * Cross-references, sums and operators are the audit's business (`audit.ts`), because they need all files at once.
 */
import { z } from 'zod';
import { MoistureLevel } from '../record/schema.ts';
import { Id } from './id.ts';
import { FINDING_GROUPS, QUANTITIES, SITES } from './vocabulary.ts';

export { Id } from './id.ts';
export { FINDING_GROUPS, QUANTITIES, SITES, UNITS } from './vocabulary.ts';

const Text = z.string().trim().min(1);
export const Probability = z.number().min(0).max(1);
const EquivalentSampleSize = z.number().positive();

/** Where a number comes from. A number without one of these does not parse. */
const published = { source: Id, place: Text, because: Text.optional() };
export const Basis = z.discriminatedUnion('basis', [
  z.object({ basis: z.literal('standard'), ...published }),
  z.object({ basis: z.literal('published'), ...published }),
  z.object({ basis: z.literal('practice'), because: Text.optional() }),
  z.object({ basis: z.literal('estimate'), because: Text.optional(), replaceBy: Text.optional() }),
  z.object({ basis: z.literal('shop'), hits: z.number().min(0), trials: z.number().positive(), since: z.iso.date() }),
]);
export type Basis = z.infer<typeof Basis>;

const withBasis = <S extends z.ZodRawShape>(shape: S) => z.intersection(z.object(shape), Basis);

/** A probability as mean p and equivalent sample size n: the Beta(p n, (1 - p) n). */
export const Chance = withBasis({ p: Probability, n: EquivalentSampleSize });
export type Chance = z.infer<typeof Chance>;

/** A row of a finding: P(state | only this fault). States left out are 0; the row sums to one; n is its Dirichlet size. */
export const Row = withBasis({ p: z.record(Id, Probability), n: EquivalentSampleSize });
export type Row = z.infer<typeof Row>;

/** A positive quantity with its range (low and high are a 90 % range); the unit is in the name of the field that holds it. */
export const Spread = withBasis({
  low: z.number().nonnegative(),
  likely: z.number().nonnegative(),
  high: z.number().nonnegative(),
});
export type Spread = z.infer<typeof Spread>;

export const Site = z.enum(SITES);
export type Site = z.infer<typeof Site>;

export const Fault = z.strictObject({
  id: Id,
  site: Site,
  /** as a technician says it */
  name: Text,
  /** as the owner of the card can read it, no jargon */
  owner: Text,
  /** what it is, in one or two sentences */
  about: Text,
  share: Chance,
  /** Weibull wear-out: odds are multiplied by (clock / reference)^(shape - 1), the hazard relative to that at the reference. */
  wear: withBasis({
    clock: z.enum(['years', 'hours']),
    shape: z.number().positive(),
    reference: z.number().positive(),
  }).optional(),
  /** once masked by heat: Weibull time until it is back */
  relapse: withBasis({
    medianDays: z.number().positive(),
    shape: z.number().positive(),
    n: EquivalentSampleSize,
  }).optional(),
  /** of the cases that work causes, the share that passes the bench test at first and opens in service, by `relapse` */
  latent: Chance.optional(),
  /** why no remedy addresses it, for the audit and the screen */
  noRemedy: Text.optional(),
  $schema: z.string().optional(),
});
export type Fault = z.infer<typeof Fault>;

export const State = z.strictObject({ id: Id, name: Text, owner: Text });

export const Finding = z.strictObject({
  id: Id,
  group: z.enum(FINDING_GROUPS),
  name: Text,
  /** what the wizard asks */
  question: Text,
  /** what was looked at, as the owner can read it: stands before a state's own wording. Left out: the owner is not told */
  owner: Text.optional(),
  /** from normal to most abnormal: a later state masks an earlier one */
  states: z.array(State).min(2),
  leak: Row,
  given: z.record(Id, Row),
  /** it tells how work was done, not what the card does: faults that do not show yet influence it as those that do */
  ofTheWork: z.literal(true).optional(),
  /** asked only where this holds (facts of the record); without it, always */
  appliesWhen: z.lazy(() => RuleConditions).optional(),
  /** no card reads above this here: such a reading was not taken where it says, and power waits until it has been taken again */
  neverAbove: withBasis({ value: z.number().positive() }).optional(),
  $schema: z.string().optional(),
});
export type Finding = z.infer<typeof Finding>;

/** Something set up once and shared by every check or remedy that needs it. */
export const Preparation = z.strictObject({
  id: Id,
  name: Text,
  minutes: Spread,
  /** preparations that are no longer made once this one is */
  undoes: z.array(Id).optional(),
  $schema: z.string().optional(),
});
export type Preparation = z.infer<typeof Preparation>;

export const Check = z.strictObject({
  id: Id,
  name: Text,
  /** what it is for, one sentence */
  purpose: Text,
  /** what is done, as the owner can read it */
  owner: Text.optional(),
  yields: z.array(Id).min(1),
  minutes: Spread,
  preparations: z.array(Id),
  /** true where the check puts power on the card: never before resistance to ground is taken and not short */
  powers: z.boolean(),
  /** findings that must be known, in one of these states, before the check is offered */
  requires: z.array(z.strictObject({ finding: Id, states: z.array(Id).min(1), because: Text })),
  /** needs equipment a shop may not have (ids from the shop profile) */
  equipment: z.array(Id),
  /** harm the check can do to the card */
  risk: withBasis({ fault: Id, p: Probability, n: EquivalentSampleSize }).optional(),
  /** bought in: which price of the shop profile it costs, and how many days it takes */
  bought: z.strictObject({ part: Id, days: z.number().nonnegative() }).optional(),
  howTo: z.array(Text).min(1),
  cautions: z.array(Id),
  $schema: z.string().optional(),
});
export type Check = z.infer<typeof Check>;

export const REMEDY_KINDS = ['reflow', 'reball', 'component-swap', 'core-swap', 'service'] as const;

/** What one attempt does to one active fault; what is left of one is: it stays. */
export const Effect = z.strictObject({ cures: Chance, masks: Chance.optional() });
export type Effect = z.infer<typeof Effect>;

/** What the bench must have looked at first: of each entry at least one of the findings. */
export const After = z.array(
  z.strictObject({
    findings: z.array(Id).min(1),
    because: Text,
    /** waived while rules close every check that looks at one (a wet board must be washed before it can be powered) */
    unlessClosed: z.boolean().optional(),
  }),
);
export type After = z.infer<typeof After>;

export const Remedy = z.strictObject({
  id: Id,
  kind: z.enum(REMEDY_KINDS),
  name: Text,
  owner: Text,
  minutes: Spread,
  /** attended bench minutes of the test afterwards that tells whether the card works: a stress run that nobody watches costs none */
  verifyMinutes: Spread,
  preparations: z.array(Id),
  /** ids priced in the shop profile, one entry per piece used */
  parts: z.array(Id),
  /** heat cycles the board spends */
  heatCycles: z.number().int().nonnegative(),
  equipment: z.array(Id),
  effects: z.record(Id, Effect),
  /** before this is done; the planner reckons with the remedy all the same, because the looking is what it plans; a verdict does not rest on it before */
  after: After.optional(),
  /** faults the work itself can cause on a card that does not have them */
  induces: z.record(Id, Chance),
  howTo: z.array(Text).min(1),
  cautions: z.array(Id),
  $schema: z.string().optional(),
});
export type Remedy = z.infer<typeof Remedy>;

export const STAGES = ['prepare', 'take-off', 'make-ready', 'join', 'clean', 'prove'] as const;

/** A number in the words of a hold point, `{its-id}` there: one figure, or from one to another. */
export const Figure = withBasis({ from: z.number(), to: z.number().optional(), unit: Text });
export type Figure = z.infer<typeof Figure>;

/** A place in a piece of work where the hands stop, something is looked at, and the result is written down. */
export const HoldPoint = z.strictObject({
  id: Id,
  stage: z.enum(STAGES),
  name: Text,
  /** what is done up to it, in order */
  howTo: z.array(Text).min(1),
  /** what must be so to go on */
  passes: Text,
  /** what is written down */
  record: z.array(Text).min(1),
  /** again: the same hold point once more · back: to an earlier one, and everything from there once more · end: the work is over */
  ifItFails: z.strictObject({ say: Text, leads: z.enum(['again', 'back', 'end']), to: Id.optional() }),
  /** why it is there */
  why: withBasis({ text: Text }).optional(),
  /** by id; every number in the words stands here with its basis */
  figures: z.record(Id, Figure).optional(),
  /** the check that is made here */
  check: Id.optional(),
  /** what it can find, and the states with which the work may go on */
  finds: z.array(z.strictObject({ finding: Id, passes: z.array(Id).min(1) })).optional(),
  /** limited: power from a current-limited supply · full: from a host */
  power: z.enum(['limited', 'full']).optional(),
  /** part of the work only where a bake is asked */
  onlyWhereBaked: z.boolean().optional(),
  /** heat to melting is put in here by the profile of the alloy */
  profile: z.boolean().optional(),
  /** when it may be left out, with the reason written down */
  mayBeLeftOut: Text.optional(),
  cautions: z.array(Id),
  $schema: z.string().optional(),
});
export type HoldPoint = z.infer<typeof HoldPoint>;

/** In place of an alloy: what the joints were made of before. */
export const AS_FOUND = 'as-found';

/** How a remedy is carried out: its hold points in order. Bears the id of the remedy. */
export const Procedure = z.strictObject({
  id: Id,
  holdPoints: z.array(Id).min(1),
  /** the solder its joints are made of: an alloy, or what is found on the board. Left out: no joints of a package are melted */
  solder: Text.optional(),
  /** the package that is heated to melting */
  package: Id.optional(),
  /** that package is joined by balls that this work places, or brings with it */
  balls: z.boolean().optional(),
  /** besides the board's heat cycles: passes the package takes, reworks of its place, and whether it is a new one */
  heat: withBasis({
    partPasses: z.number().int().nonnegative(),
    locationReworks: z.number().int().nonnegative(),
    newPart: z.boolean(),
  }).optional(),
  /** facts of the trade to bear in mind */
  notes: z.array(withBasis({ text: Text })).optional(),
  $schema: z.string().optional(),
});
export type Procedure = z.infer<typeof Procedure>;

/** What is assumed of a kind of package while nobody has looked it up. */
export const PackageKind = z.intersection(
  z.object({
    id: Id,
    name: Text,
    /** usual for its kind, and the one to reckon with while it is not known */
    moistureLevel: MoistureLevel,
    cautiousMoistureLevel: MoistureLevel,
    bodyMillimetres: z.number().positive(),
    gridMillimetres: z.number().positive(),
    /** passes of the board in its making */
    factoryPasses: z.number().int().nonnegative(),
    $schema: z.string().optional(),
  }),
  Basis,
);
export type PackageKind = z.infer<typeof PackageKind>;

/** A way to stop. `value` says what the card is worth then. */
export const Stop = z.strictObject({
  id: Id,
  verdict: z.enum(['return', 'scrap']),
  name: Text,
  owner: Text,
  minutes: Spread,
  /** working-if-sound: the working value when no fault of the card is active, else as-is less the cost of its return · as-is · parts */
  value: z.enum(['working-if-sound', 'as-is', 'parts']),
  /** before the card leaves so; the look comes next, and the verdict stands in pencil until then */
  after: After.optional(),
  $schema: z.string().optional(),
});
export type Stop = z.infer<typeof Stop>;

/** An edge between two bands; `tolerance` is the standard deviation of its logarithm (0: sharp). */
const Edge = withBasis({ at: z.number(), tolerance: z.number().nonnegative() });

/** Bands on a reading, along the axis from below to above: bands[0] < edges[0] <= bands[1] < edges[1] ... */
export const Window = z.strictObject({
  id: Id,
  finding: Id,
  name: Text,
  quantity: z.enum(QUANTITIES),
  bands: z.array(Id).min(2),
  edges: z.array(Edge).min(1),
  /** the same bands as multiples of a known-good reading of the same board */
  relative: z.array(Edge).optional(),
  /** the state an over-range (OL) reading means */
  overRange: Id.optional(),
  /** the reading is a copper path: its resistance is corrected to 20 degC */
  copper: z.boolean().optional(),
  $schema: z.string().optional(),
});
export type Window = z.infer<typeof Window>;

export const Source = z.strictObject({
  id: Id,
  title: Text,
  by: Text,
  year: z.number().int().optional(),
  /** seen: read in a copy of the source · quoted: read on a page that quotes it · memory: from memory */
  seen: z.enum(['seen', 'quoted', 'memory']),
  note: Text.optional(),
  $schema: z.string().optional(),
});
export type Source = z.infer<typeof Source>;

export const Caution = z.strictObject({
  id: Id,
  text: Text,
  /** as the owner may need it; left out where it concerns the bench alone */
  owner: Text.optional(),
  basis: z.enum(['standard', 'published', 'practice', 'estimate']),
  source: Id.optional(),
  place: Text.optional(),
  $schema: z.string().optional(),
});
export type Caution = z.infer<typeof Caution>;

/** A fact a rule may ask for; every one may be unknown. */
export const FactDefinition = z.strictObject({
  id: Id,
  name: Text,
  question: Text,
  type: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('choice'), values: z.array(z.strictObject({ id: Id, name: Text })).min(2) }),
    z.strictObject({ kind: z.literal('yes-no') }),
    z.strictObject({
      kind: z.literal('number'),
      unit: z.string(),
      min: z.number(),
      max: z.number(),
      /** counted, not measured: there is nothing between 7 and 8 */
      whole: z.boolean().optional(),
    }),
    z.strictObject({ kind: z.literal('set'), values: z.array(z.strictObject({ id: Id, name: Text })).min(1) }),
  ]),
  /** where the wizard asks it; 'derived' facts are computed from the record (see evidence/facts.ts) */
  step: z.enum(['card', 'history', 'symptoms', 'looks', 'derived']),
  about: Text.optional(),
});
export type FactDefinition = z.infer<typeof FactDefinition>;
export const Facts = z.strictObject({ facts: z.array(FactDefinition), $schema: z.string().optional() });
export type Facts = z.infer<typeof Facts>;

/** Conditions as json-rules-engine reads them. Every condition list has at least one member. */
export type RuleConditions =
  | { all: RuleConditions[] }
  | { any: RuleConditions[] }
  | { not: RuleConditions }
  | { fact: string; operator: string; value: string | number | boolean | (string | number)[] };
export const RuleConditions: z.ZodType<RuleConditions> = z.lazy(() =>
  z.union([
    z.strictObject({ all: z.array(RuleConditions).min(1) }),
    z.strictObject({ any: z.array(RuleConditions).min(1) }),
    z.strictObject({ not: RuleConditions }),
    z.strictObject({
      fact: z.string(),
      operator: z.string(),
      value: z.union([z.string(), z.number(), z.boolean(), z.array(z.union([z.string(), z.number()]))]),
    }),
  ]),
);

export const RuleEvent = z.discriminatedUnion('type', [
  /** multiplies odds of faults; `spread` is the standard deviation of the factor's logarithm */
  z.strictObject({
    type: z.literal('history'),
    params: z.strictObject({ factors: z.record(Id, z.number().positive()), spread: z.number().nonnegative() }),
  }),
  /** this window applies to readings of that finding */
  z.strictObject({ type: z.literal('window'), params: z.strictObject({ finding: Id, window: Id }) }),
  /** soft evidence: a weight in [0, 1] for every state */
  z.strictObject({
    type: z.literal('evidence'),
    params: z.strictObject({ finding: Id, weights: z.record(Id, Probability) }),
  }),
  /** closes a check or a remedy */
  z.strictObject({
    type: z.literal('close'),
    params: z.strictObject({
      checks: z.array(Id),
      remedies: z.array(Id),
      reason: Text,
      /** the reason as the owner can read it; left out where it does not concern the owner */
      owner: Text.optional(),
    }),
  }),
  /** multiplies the chance that remedies induce damage */
  z.strictObject({
    type: z.literal('damage'),
    params: z.strictObject({ remedies: z.array(Id), factor: z.number().positive(), spread: z.number().nonnegative() }),
  }),
  z.strictObject({ type: z.literal('caution'), params: z.strictObject({ caution: Id }) }),
]);
export type RuleEvent = z.infer<typeof RuleEvent>;

export const Rule = z.intersection(
  z.object({
    id: Id,
    about: Text,
    conditions: RuleConditions,
    /** what an unknown fact means under a negation or a negative operator: required for each such fact */
    unknownMeans: z.record(z.string(), z.enum(['match', 'no-match'])).optional(),
    event: RuleEvent,
    $schema: z.string().optional(),
  }),
  Basis,
);
export type Rule = z.infer<typeof Rule>;

/** Figures of the population as a whole. */
export const Population = z.strictObject({
  /** share of arriving cards with more than one fault */
  moreThanOneFault: Chance,
  /** share of arriving cards with no fault at all, neither of the card nor of its host; left out: what the product of odds gives */
  noFault: Chance.optional(),
  /** faults per year that strike a card in service whatever was done to it */
  newFaultsPerYear: withBasis({ rate: z.number().nonnegative(), n: EquivalentSampleSize }),
  $schema: z.string().optional(),
});
export type Population = z.infer<typeof Population>;

/** What a bench can own and what a repair can use up, with the names people know them by. The shop profile prices and owns them. */
export const Bench = z.strictObject({
  equipment: z.array(z.strictObject({ id: Id, name: Text })),
  parts: z.array(z.strictObject({ id: Id, name: Text })),
  $schema: z.string().optional(),
});
export type Bench = z.infer<typeof Bench>;

/** The kinds of file, their folder and their schema. Folders marked `rules` hold json-rules-engine rules. */
export const FOLDERS = {
  faults: Fault,
  findings: Finding,
  preparations: Preparation,
  checks: Check,
  remedies: Remedy,
  procedures: Procedure,
  'hold-points': HoldPoint,
  packages: PackageKind,
  stops: Stop,
  windows: Window,
  sources: Source,
  cautions: Caution,
  history: Rule,
  'owner-words': Rule,
  'window-choice': Rule,
  gates: Rule,
} as const;
export const SINGLE_FILES = { 'facts.json': Facts, 'population.json': Population, 'bench.json': Bench } as const;

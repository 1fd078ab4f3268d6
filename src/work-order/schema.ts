/** A work order as a plain value: what `worksheet --json` prints, what the job sheet and the wizard show. */
import { z } from 'zod';
import { Joint } from '../ball-grid/answer.ts';
import { Id } from '../knowledge/id.ts';

const Text = z.string().min(1);
const Cited = z.strictObject({ source: Text, place: Text, seen: z.enum(['seen', 'quoted', 'memory']) });
/** Words with where they come from: a standard and its table, common practice, an estimate. */
const Based = z.strictObject({
  text: Text,
  from: Text,
  basis: z.enum(['standard', 'published', 'practice', 'estimate', 'shop']),
});

export const OrderStep = z.strictObject({
  id: Id,
  /** from 1 */
  number: z.number().int().positive(),
  stage: z.enum(['prepare', 'take-off', 'make-ready', 'join', 'clean', 'prove']),
  name: Text,
  howTo: z.array(Text),
  /** what must be so to go on */
  passes: Text,
  /** what is written down */
  record: z.array(Text),
  /** the same as what is kept in the card's record begins with it: in the words of the rules, whatever the language of the order */
  recordAs: z.array(Text),
  ifItFails: z.strictObject({ say: Text, leads: z.enum(['again', 'back', 'end']), to: Id.nullable() }),
  why: Based.nullable(),
  /** numbers in the words, with their basis */
  figures: z.array(Based),
  check: z.strictObject({ id: Id, name: Text }).nullable(),
  /** what can be found here: states with which the work goes on, and the others */
  finds: z.array(
    z.strictObject({
      finding: Id,
      name: Text,
      question: Text,
      /** it is read from a meter */
      measured: z.boolean(),
      passes: z.array(z.strictObject({ id: Id, name: Text })),
      fails: z.array(z.strictObject({ id: Id, name: Text })),
    }),
  ),
  power: z.enum(['limited', 'full']).nullable(),
  /** heat to melting by the profile targets */
  profile: z.boolean(),
  /** when it may be left out, with a reason; null: never */
  mayBeLeftOut: z.string().nullable(),
  cautions: z.array(Id),
});
export type OrderStep = z.infer<typeof OrderStep>;

export const SolderLine = z.strictObject({
  alloy: Text,
  solidusCelsius: z.number(),
  liquidusCelsius: z.number(),
  class: z.enum(['snpb', 'lead-free']).nullable(),
  /** stated: by whoever asked · procedure: what this work is done with · record: by earlier work here · assumed */
  from: z.enum(['stated', 'procedure', 'record', 'assumed']),
  words: z.array(Text),
  cited: Cited,
});
export type SolderLine = z.infer<typeof SolderLine>;

export const BakeLine = z.strictObject({
  /** bake: by one of the choices · look-up: the table has no cell · none: dry enough · not-asked: nothing moisture-sensitive is melted */
  kind: z.enum(['bake', 'look-up', 'none', 'not-asked']),
  words: z.array(Text),
  /** hottest first; one of them is enough */
  choices: z.array(z.strictObject({ celsius: z.number(), hours: z.number(), cited: Cited })),
  /** what was not known and is assumed */
  assumed: z.array(Text),
  /** the same for the worse level that is possible; empty where the level is known */
  cautious: z.array(z.strictObject({ celsius: z.number(), hours: z.number(), cited: Cited })),
  cautiousLevel: z.string().nullable(),
});
export type BakeLine = z.infer<typeof BakeLine>;

export const HeatLine = z.strictObject({
  /** heat cycles of the board before this work are known; else they are at least what is counted */
  known: z.boolean(),
  words: z.array(Text),
  allowances: z.array(
    z.strictObject({
      id: z.enum(['part-passes', 'location-reworks', 'board-passes']),
      name: Text,
      most: z.number(),
      spent: z.number(),
      left: z.number(),
      takes: z.number(),
      leftAfter: z.number(),
      cited: Cited,
    }),
  ),
  /** goes beyond one of them */
  beyond: z.boolean(),
});
export type HeatLine = z.infer<typeof HeatLine>;

export const TargetsLine = z.strictObject({
  window: Text,
  kind: z.enum(['package-class', 'shop']),
  rows: z.array(z.strictObject({ measure: Text, name: Text, limit: Text, cited: Cited.nullable() })),
  words: z.array(Text),
});
export type TargetsLine = z.infer<typeof TargetsLine>;

export const BallsLine = z.strictObject({
  /** the kind of package they belong to, and what it is called */
  package: Id,
  name: Text,
  /** null: nothing of them is on the record */
  joint: Joint.nullable(),
});
export type BallsLine = z.infer<typeof BallsLine>;

export const OrderState = z.strictObject({
  /**
   * open: the next hold point waits · stopped: one failed, and what it says comes first · over: one failed and ended the
   * work · finished: all are recorded · out-of-order: what is recorded does not follow the order
   */
  kind: z.enum(['open', 'stopped', 'over', 'finished', 'out-of-order']),
  /** the one hold point that may be recorded now; null: none */
  next: Id.nullable(),
  sentence: Text,
  steps: z.array(
    z.strictObject({
      step: Id,
      standing: z.enum(['passed', 'left-out', 'failed', 'open', 'closed']),
      /** how often it was recorded */
      tries: z.number().int().nonnegative(),
      at: z.string().nullable(),
      note: z.string().nullable(),
    }),
  ),
  problems: z.array(z.strictObject({ index: z.number().int(), wrong: Text, todo: Text })),
});
export type OrderState = z.infer<typeof OrderState>;

export const WorkOrder = z.strictObject({
  kind: z.literal('order'),
  format: z.literal(1),
  knowledge: z.string(),
  /** of its words (BCP 47) */
  language: Text,
  record: Id,
  title: z.string(),
  invented: z.boolean(),
  shop: z.string(),
  remedy: Id,
  name: Text,
  /** work of another remedy that has begun on the card; null: none has */
  otherWork: z.strictObject({ remedy: Id, name: Text }).nullable(),
  /** the verdict advises this remedy, and it is justified */
  advised: z.boolean(),
  /** why it might not be done, or not yet */
  warnings: z.array(Text),
  minutes: z.strictObject({ low: z.number(), likely: z.number(), high: z.number() }),
  equipment: z.array(z.strictObject({ id: Id, name: Text, here: z.boolean() })),
  parts: z.array(z.strictObject({ id: Id, name: Text })),
  /** null: no joints of a package are melted */
  solder: SolderLine.nullable(),
  /** null: this work places no balls */
  balls: BallsLine.nullable(),
  bake: BakeLine,
  /** null: the budget is not touched */
  heat: HeatLine.nullable(),
  /** null: nothing is melted by a profile, or no window is known for the alloy */
  targets: TargetsLine.nullable(),
  notes: z.array(Based),
  steps: z.array(OrderStep).min(1),
  cautions: z.array(z.strictObject({ id: Id, text: Text })),
  /** hold points already recorded of this work, where it has begun */
  recorded: z.array(
    z.strictObject({
      step: Id,
      at: z.string(),
      outcome: z.enum(['passed', 'failed', 'left-out']),
      note: z.string().optional(),
    }),
  ),
  state: OrderState,
});
export type WorkOrder = z.infer<typeof WorkOrder>;

export const NoOrder = z.strictObject({
  kind: z.literal('no-order'),
  format: z.literal(1),
  because: Text,
  todo: Text,
});
export type NoOrder = z.infer<typeof NoOrder>;

export const WorksheetAnswer = z.discriminatedUnion('kind', [WorkOrder, NoOrder]);
export type WorksheetAnswer = z.infer<typeof WorksheetAnswer>;

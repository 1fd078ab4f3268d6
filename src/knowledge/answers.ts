/** The shape of what is told about the knowledge: the audit's answer, the report, the ranked estimates, the export. */
import { z } from 'zod';
import {
  Bench,
  Caution,
  Check,
  FactDefinition,
  Fault,
  Finding,
  HoldPoint,
  Id,
  PackageKind,
  Preparation,
  Probability,
  Procedure,
  Remedy,
  Rule,
  Source,
  Stop,
  Window,
} from './schema.ts';

const Count = z.number().int().nonnegative();
const Size = z.number().positive();

export const AuditAnswer = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('sound'), version: z.string(), counts: z.record(z.string(), Count) }),
  z.strictObject({
    kind: z.literal('unsound'),
    problems: z.array(
      z.strictObject({
        file: z.string(),
        path: z.string(),
        kind: z.string(),
        wrong: z.string(),
        todo: z.string(),
        /** by which saying, and of what, where it can be said in another language */
        told: z
          .strictObject({ id: z.string(), about: z.record(z.string(), z.union([z.string(), z.number()])) })
          .optional(),
      }),
    ),
  }),
]);

const Bases = z.strictObject({ standard: Count, published: Count, practice: Count, estimate: Count, shop: Count });
const Pair = z.strictObject({ faults: z.tuple([Id, Id]), separation: Probability, finding: Id.nullable() });
export const KnowledgeReportAnswer = z.strictObject({
  knowledge: z.string(),
  numbers: Bases,
  byKind: z.record(z.string(), Bases),
  inseparable: z.array(Pair),
  threshold: z.number(),
  closest: z.array(Pair),
});

export const EstimatesAnswer = z.array(
  z.strictObject({
    kind: z.enum(['share', 'row', 'leak', 'cure']),
    fault: Id.optional(),
    finding: Id.optional(),
    remedy: Id.optional(),
    because: z.string().optional(),
    replaceBy: z.string().optional(),
    change: z.number().nonnegative(),
    flips: z.array(Id),
    tried: z.array(Id),
  }),
);

export const FactsAnswer = z.array(FactDefinition);

const Row = z.array(Probability);
/** What `exportKnowledge` returns; its docstring says how to recompute a posterior from it. */
export const ExportAnswer = z.strictObject({
  format: z.literal(1),
  knowledge: z.string(),
  faults: z.array(
    Fault.omit({ share: true, latent: true, $schema: true }).extend({
      latent: Probability.optional(),
      latentSize: Size.optional(),
      share: Probability,
      shareSize: Size,
      odds: z.number().nonnegative(),
      basis: z.string(),
    }),
  ),
  findings: z.array(
    z.strictObject({
      id: Id,
      group: Finding.shape.group,
      name: z.string(),
      states: z.array(Id),
      stateNames: z.array(z.string()),
      leak: Row,
      leakSize: Size,
      given: z.record(Id, Row),
      givenSize: z.record(Id, Size),
      ofTheWork: Finding.shape.ofTheWork,
      appliesWhen: Finding.shape.appliesWhen,
    }),
  ),
  population: z.strictObject({
    moreThanOneFault: Probability,
    moreThanOneFaultSize: Size,
    noFault: Probability.nullable(),
    noFaultSize: Size.nullable(),
    newFaultsPerYear: z.number().nonnegative(),
    newFaultsPerYearSize: Size,
  }),
  remedies: z.array(
    Remedy.omit({ effects: true, induces: true, $schema: true }).extend({
      effects: z.record(Id, z.strictObject({ cures: Probability, masks: Probability })),
      effectsSize: z.record(Id, z.strictObject({ cures: Size, masks: Size.nullable() })),
      induces: z.record(Id, Probability),
      inducesSize: z.record(Id, Size),
    }),
  ),
  procedures: z.array(Procedure),
  holdPoints: z.array(HoldPoint),
  packages: z.array(PackageKind),
  stops: z.array(Stop),
  checks: z.array(Check),
  preparations: z.array(Preparation),
  windows: z.array(Window),
  facts: FactsAnswer,
  rules: z.strictObject({
    history: z.array(Rule),
    ownerWords: z.array(Rule),
    windowChoice: z.array(Rule),
    gates: z.array(Rule),
  }),
  cautions: z.array(Caution),
  sources: z.array(Source),
  bench: Bench,
});

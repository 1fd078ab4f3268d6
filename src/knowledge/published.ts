/** The JSON Schema of every kind of file and answer, for editors and for other programs. */
import { z } from 'zod';
import { Assessment, NextAnswer } from '../assessment.ts';
import { JointAnswer } from '../ball-grid/answer.ts';
import { RemediesAnswer } from '../learning/answer.ts';
import { LetterAnswer } from '../letter/schema.ts';
import { RevisitAnswer } from '../lifeline.ts';
import { Record } from '../record/schema.ts';
import { Shop } from '../shop/schema.ts';
import { WorksheetAnswer } from '../work-order/schema.ts';
import { AuditAnswer, EstimatesAnswer, ExportAnswer, FactsAnswer, KnowledgeReportAnswer } from './answers.ts';
import { ProfileAnswer, ShopReflowWindow } from './profile-answer.ts';
import { FOLDERS, SINGLE_FILES } from './schema.ts';

type JsonSchema = { [key: string]: unknown };

/** One schema for each kind; rules of all folders share theirs. Files say `"$schema": "../schemas/<kind>.schema.json"`. */
const KINDS = {
  fault: FOLDERS.faults,
  finding: FOLDERS.findings,
  preparation: FOLDERS.preparations,
  check: FOLDERS.checks,
  remedy: FOLDERS.remedies,
  procedure: FOLDERS.procedures,
  'hold-point': FOLDERS['hold-points'],
  package: FOLDERS.packages,
  stop: FOLDERS.stops,
  window: FOLDERS.windows,
  source: FOLDERS.sources,
  caution: FOLDERS.cautions,
  rule: FOLDERS.history,
  facts: SINGLE_FILES['facts.json'],
  population: SINGLE_FILES['population.json'],
  bench: SINGLE_FILES['bench.json'],
  shop: Shop,
  record: Record,
  assessment: Assessment,
  next: NextAnswer,
  revisit: RevisitAnswer,
  letter: LetterAnswer,
  remedies: RemediesAnswer,
  worksheet: WorksheetAnswer,
  profile: ProfileAnswer,
  joint: JointAnswer,
  'reflow-window': ShopReflowWindow,
  audit: AuditAnswer,
  knowledge: ExportAnswer,
  'knowledge-report': KnowledgeReportAnswer,
  'knowledge-estimates': EstimatesAnswer,
  'knowledge-facts': FactsAnswer,
} as const;

/** Kind -> JSON Schema (draft 2020-12). */
export function publishedSchemas(): ReadonlyMap<string, JsonSchema> {
  return new Map(Object.entries(KINDS).map(([kind, schema]) => [kind, publish(kind, schema)]));
}

function publish(kind: string, schema: z.ZodType): JsonSchema {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input' }) as JsonSchema;
  return closeBases({ $schema, title: kind, ...rest }) as JsonSchema;
}

/** A number's object takes only its own keys and its basis', so that an editor marks a misspelt `becuase` as the audit does. */
function closeBases(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(closeBases);
  if (typeof node !== 'object' || node === null) return node;
  const closed: JsonSchema = Object.fromEntries(Object.entries(node).map(([key, inner]) => [key, closeBases(inner)]));
  const { properties } = closed;
  const based = typeof properties === 'object' && properties !== null && 'basis' in properties;
  return based && closed.additionalProperties === undefined ? { ...closed, additionalProperties: false } : closed;
}

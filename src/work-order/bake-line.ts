/** Whether the package is dried first, and what is assumed where nobody knows. */
import {
  type BakeNeed,
  bakeNeeded,
  type Exposure,
  FLOOR_LIFE_HOURS,
  LARGE_GRID_MILLIMETRES,
  TABLE_ENDS_MILLIMETRES,
} from '../joints/bake.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { PackageKind } from '../knowledge/schema.ts';
import type { PackageKnown } from '../record/schema.ts';
import { numberIn, sayBasis } from './order-steps.ts';
import type { BakeLine } from './schema.ts';

type Spoken = Pick<Knowledge, 'sources' | 'sayings' | 'language'>;

/** A package out of its bag for an unknown time counts as wet through; one that lay damp does so whatever the hours say. */
export function bakeLine(
  knowledge: Spoken,
  kind: PackageKind | undefined,
  known: PackageKnown,
  facts: ReadonlyMap<string, unknown>,
): BakeLine {
  if (kind === undefined)
    return {
      kind: 'not-asked',
      words: [say(knowledge, 'bake-not-asked')],
      choices: [],
      assumed: [],
      cautious: [],
      cautiousLevel: null,
    };
  const damp = facts.get('stored-damp') === true || (facts.get('liquid') === true && known.exposureHours === undefined);
  const exposure = (level: PackageKind['moistureLevel']): Exposure => ({
    level,
    bodyMillimetres: known.bodyMillimetres ?? kind.bodyMillimetres,
    hours: known.exposureHours ?? 'unknown',
    room: damp ? 'worse' : (known.room ?? 'unknown'),
    gridMillimetres: known.gridMillimetres ?? kind.gridMillimetres,
  });
  const level = known.moistureLevel ?? kind.moistureLevel;
  const asked = exposure(level);
  const need = bakeNeeded(asked);
  const cautiousLevel = known.moistureLevel === undefined ? kind.cautiousMoistureLevel : null;
  const cautious = cautiousLevel === null ? [] : choicesOf(bakeNeeded(exposure(cautiousLevel)));
  return {
    kind: need.kind === 'no-cell' ? 'look-up' : need.kind,
    words: [...wordsOf(knowledge, need, asked), ...(damp ? [say(knowledge, 'bake-damp')] : [])],
    choices: choicesOf(need),
    assumed: assumedOf(knowledge, kind, known),
    cautious,
    cautiousLevel,
  };
}

function choicesOf(need: BakeNeed): BakeLine['choices'] {
  if (need.kind !== 'bake') return [];
  return need.choices.map(({ celsius, hours, seen, cited }) => ({ celsius, hours, cited: { ...cited, seen } }));
}

function wordsOf(knowledge: Spoken, need: BakeNeed, asked: Exposure): string[] {
  const { level } = asked;
  const because = sayReason(knowledge, need.reason, asked);
  switch (need.kind) {
    case 'none':
      return [say(knowledge, 'bake-none', { because, level })];
    case 'bake':
      return [say(knowledge, 'bake-first', { because, level })];
    case 'no-cell':
      return [say(knowledge, 'bake-unlisted', { because, level }), say(knowledge, 'bake-ask-maker')];
  }
}

/** What `because` of the need says, in the language of the knowledge. */
export function sayReason(knowledge: Spoken, { id, besides }: BakeNeed['reason'], asked: Exposure): string {
  const number = numberIn(knowledge);
  const { level, hours, bodyMillimetres } = asked;
  const floor = FLOOR_LIFE_HOURS[level];
  const counted = typeof floor === 'number' && hours !== 'unknown';
  const slots = counted ? { hours: number(hours), floor: number(floor), by: number(hours - floor) } : {};
  const because = say(knowledge, `bake-${id}`, slots);
  if (besides === undefined) return because;
  switch (besides) {
    case 'large-grid':
      return say(knowledge, 'bake-large-grid', { because, millimetres: number(LARGE_GRID_MILLIMETRES) });
    case 'no-row':
      return say(knowledge, 'bake-no-row', { because });
    case 'too-thick':
      return say(knowledge, 'bake-too-thick', {
        because,
        most: number(TABLE_ENDS_MILLIMETRES),
        millimetres: number(bodyMillimetres),
      });
    case 'row-unseen':
      return say(knowledge, 'bake-row-unseen', { because, level, millimetres: number(bodyMillimetres) });
  }
}

function assumedOf(knowledge: Spoken, kind: PackageKind, known: PackageKnown): string[] {
  const number = numberIn(knowledge);
  const from = sayBasis(knowledge, kind);
  const assumed: string[] = [];
  if (known.moistureLevel === undefined)
    assumed.push(
      say(knowledge, 'bake-assumed-level', {
        level: kind.moistureLevel,
        package: kind.name,
        cautious: kind.cautiousMoistureLevel,
        from,
      }),
    );
  const size = [
    ...(known.bodyMillimetres === undefined
      ? [say(knowledge, 'bake-body', { millimetres: number(kind.bodyMillimetres) })]
      : []),
    ...(known.gridMillimetres === undefined
      ? [say(knowledge, 'bake-side', { millimetres: number(kind.gridMillimetres) })]
      : []),
  ].join(', ');
  if (size !== '') assumed.push(say(knowledge, 'bake-assumed-size', { package: kind.name, size, from }));
  if (known.exposureHours === undefined) assumed.push(say(knowledge, 'bake-assumed-exposure'));
  else if (known.room === undefined) assumed.push(say(knowledge, 'bake-assumed-room'));
  return assumed;
}

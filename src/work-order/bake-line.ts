/** Whether the package is dried first, and what is assumed where nobody knows. */
import { type BakeNeed, bakeNeeded, type Exposure } from '../joints/bake.ts';
import type { PackageKind } from '../knowledge/schema.ts';
import type { PackageKnown } from '../record/schema.ts';
import type { BakeLine } from './schema.ts';

const NOT_ASKED: BakeLine = {
  kind: 'not-asked',
  words: [
    'No package is brought to melting by this work, so no bake is asked. A board that is wet or swollen is dried all the same.',
  ],
  choices: [],
  assumed: [],
  cautious: [],
  cautiousLevel: null,
};

/** A package out of its bag for an unknown time counts as wet through; one that lay damp does so whatever the hours say. */
export function bakeLine(
  kind: PackageKind | undefined,
  known: PackageKnown,
  facts: ReadonlyMap<string, unknown>,
): BakeLine {
  if (kind === undefined) return NOT_ASKED;
  const damp = facts.get('stored-damp') === true || (facts.get('liquid') === true && known.exposureHours === undefined);
  const exposure = (level: PackageKind['moistureLevel']): Exposure => ({
    level,
    bodyMillimetres: known.bodyMillimetres ?? kind.bodyMillimetres,
    hours: known.exposureHours ?? 'unknown',
    room: damp ? 'worse' : (known.room ?? 'unknown'),
    gridMillimetres: known.gridMillimetres ?? kind.gridMillimetres,
  });
  const level = known.moistureLevel ?? kind.moistureLevel;
  const need = bakeNeeded(exposure(level));
  const cautiousLevel = known.moistureLevel === undefined ? kind.cautiousMoistureLevel : null;
  const cautious = cautiousLevel === null ? [] : choicesOf(bakeNeeded(exposure(cautiousLevel)));
  return {
    kind: need.kind === 'no-cell' ? 'look-up' : need.kind,
    words: [...wordsOf(need, level), ...(damp ? ['By its history it lay damp or wet.'] : [])],
    choices: choicesOf(need),
    assumed: assumedOf(kind, known),
    cautious,
    cautiousLevel,
  };
}

function choicesOf(need: BakeNeed): BakeLine['choices'] {
  if (need.kind !== 'bake') return [];
  return need.choices.map(({ celsius, hours, seen, cited }) => ({ celsius, hours, cited: { ...cited, seen } }));
}

function wordsOf(need: BakeNeed, level: string): string[] {
  switch (need.kind) {
    case 'none':
      return [`No bake: ${need.because} (level ${level}).`];
    case 'bake':
      return [`Bake before heat (level ${level}): ${need.because}.`];
    case 'no-cell':
      return [`The bake is not in the table (level ${level}): ${need.because}.`, need.todo];
  }
}

function assumedOf(kind: PackageKind, known: PackageKnown): string[] {
  const from = `${kind.basis === 'estimate' ? 'estimate' : kind.basis}${'because' in kind && kind.because ? `: ${kind.because}` : ''}`;
  const assumed: string[] = [];
  if (known.moistureLevel === undefined)
    assumed.push(
      `Moisture level ${kind.moistureLevel}, usual for a ${kind.name}; the cautious one is ${kind.cautiousMoistureLevel} (${from}).`,
    );
  const size = [
    ...(known.bodyMillimetres === undefined ? [`body ${kind.bodyMillimetres} mm thick`] : []),
    ...(known.gridMillimetres === undefined ? [`longest side ${kind.gridMillimetres} mm`] : []),
  ];
  if (size.length > 0) assumed.push(`Size of a ${kind.name}: ${size.join(', ')} (${kind.basis}).`);
  if (known.exposureHours === undefined)
    assumed.push('Out of its dry bag for an unknown time: counts as wet through, which is the cautious side.');
  else if (known.room === undefined) assumed.push('The room it lay in is not known: counts as wet through.');
  return assumed;
}

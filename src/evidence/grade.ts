/** One reading, from what was typed to a weight per state of its finding. */
import type { Finding, Id, Window } from '../knowledge/schema.ts';
import { UNITS } from '../knowledge/vocabulary.ts';
import type { Instrument, Measured } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { bandWeights, type UncertainEdge } from './bands.ts';
import type { GradedReading } from './evidence.ts';
import { formatQuantity, parseQuantity } from './quantity.ts';
import { type Refused, refuse } from './refusals.ts';
import {
  combine,
  copperAtReference,
  copperSensitivity,
  fromHalfWidth,
  fromResolution,
  meterHalfWidth,
} from './uncertainty.ts';

export type Graded =
  | {
      readonly kind: 'graded';
      readonly reading: GradedReading;
      /** one per state of the finding; they sum to 1 */
      readonly weights: readonly number[];
    }
  | (Refused & {
      readonly kind: 'refused';
      readonly field: 'typed' | 'leads' | 'knownGood';
      readonly typed: string;
    });

/**
 * A reading that leads brought below zero counts as zero while it is within this many standard uncertainties of it
 * (about 95 %).
 */
const ZERO_COVERAGE = 2;

type Component = GradedReading['budget'][number];
interface Corrected {
  readonly value: number;
  readonly budget: readonly Component[];
}
type Refusal = Extract<Graded, { kind: 'refused' }>;
type Read = { readonly kind: 'read'; readonly value: number } | { readonly kind: 'over-range' } | Refusal;

/**
 * Grades a reading into the states of its finding.
 *
 * Corrections: lead resistance is subtracted from resistances unless they were taken four-wire (the record's leads,
 * else the shop's); where the window is a copper path and the temperature is known, it is brought to 20 degC.
 * Uncertainty, in quadrature (GUM 5.1.2): the meter's specification and its display, the same for the leads, the
 * temperature, and the stated spread of repeats. A known-good board's reading takes the place of the window's own edges
 * where the window states relative ones: each becomes multiple x reference, and carries the reference's uncertainty,
 * taken as independent (the two share a meter, so this errs wide).
 *
 * Over range is the state the window names for it, else that of its highest band, with certainty.
 */
export function gradeReading(measured: Measured, window: Window, finding: Finding, shop: Shop): Graded {
  const read = readField(measured.typed, window, 'typed');
  if (read.kind === 'refused') return read;
  const reference = readReference(measured, window);
  if (reference?.kind === 'refused') return reference;
  const leads = readLeads(measured, window, shop);
  if (leads.kind === 'refused') return leads;

  const correct = (value: number, repeats: number): Corrected =>
    corrected(value, leads.value, repeats, measured, window, shop);
  const good = reference && settle(correct(reference.value, 0), measured.knownGood ?? '', window, 'knownGood');
  if (good?.kind === 'refused') return good;
  if (good && good.value === 0) return noReference(measured.knownGood ?? '');
  const edges = edgesOf(window, good);
  const common = {
    typed: measured.typed,
    unit: UNITS[window.quantity],
    window: window.id,
    edges: edges.map(({ at }) => at),
    bands: window.bands,
    recentred: good !== undefined && window.relative !== undefined,
  };

  if (read.kind === 'over-range') {
    const reading = { ...common, value: Number.POSITIVE_INFINITY, uncertainty: Number.POSITIVE_INFINITY, budget: [] };
    const state = window.overRange ?? window.bands.at(-1);
    return { kind: 'graded', reading, weights: finding.states.map(({ id }) => (id === state ? 1 : 0)) };
  }
  const settled = settle(correct(read.value, measured.repeatability ?? 0), measured.typed, window, 'typed');
  if (settled.kind === 'refused') return settled;
  const reading = { ...common, value: settled.value, uncertainty: settled.uncertainty, budget: settled.budget };
  return {
    kind: 'graded',
    reading,
    weights: onStates(bandWeights(settled.value, settled.uncertainty, edges), window, finding),
  };
}

function readField(typed: string, window: Window, field: Refusal['field']): Read {
  const parsed = parseQuantity(typed, window.quantity);
  if (parsed.kind === 'error') return { ...parsed, kind: 'refused', field };
  return parsed.kind === 'value' ? { kind: 'read', value: parsed.value } : parsed;
}

function readReference(measured: Measured, window: Window): Extract<Read, { kind: 'read' }> | Refusal | undefined {
  if (measured.knownGood === undefined) return undefined;
  const read = readField(measured.knownGood, window, 'knownGood');
  return read.kind === 'over-range' ? noReference(measured.knownGood) : read;
}

function readLeads(measured: Measured, window: Window, shop: Shop): Extract<Read, { kind: 'read' }> | Refusal {
  if (window.quantity !== 'resistance' || measured.fourWire) return { kind: 'read', value: 0 };
  if (measured.leads === undefined) return { kind: 'read', value: shop.leadResistance };
  const read = readField(measured.leads, window, 'leads');
  if (read.kind !== 'over-range') return read;
  return {
    kind: 'refused',
    field: 'leads',
    typed: measured.leads,
    ...refuse('leads-broken', {}),
  };
}

function noReference(typed: string): Refusal {
  return {
    kind: 'refused',
    field: 'knownGood',
    typed,
    ...refuse('no-reference', { typed }),
  };
}

function corrected(
  raw: number,
  leads: number,
  repeats: number,
  measured: Measured,
  window: Window,
  shop: Shop,
): Corrected {
  const meter = measured.instrument ?? shop.instruments[window.quantity];
  const budget: Component[] = [
    { component: 'meter', u: fromHalfWidth(meterHalfWidth(raw, meter)) },
    { component: 'display', u: fromResolution(meter.resolution) },
  ];
  if (leads > 0) budget.push({ component: 'leads', u: meterUncertainty(leads, meter) });
  if (repeats > 0) budget.push({ component: 'repeats', u: repeats });
  const net = raw - leads;
  if (!window.copper || measured.temperature === undefined) return { value: net, budget };

  const factor = copperAtReference(1, measured.temperature);
  const thermometer = meterUncertainty(measured.temperature, shop.instruments.temperature);
  return {
    value: net * factor,
    budget: [
      ...budget.map(({ component, u }) => ({ component, u: u * factor })),
      { component: 'temperature', u: Math.abs(copperSensitivity(net, measured.temperature)) * thermometer },
    ],
  };
}

function meterUncertainty(reading: number, meter: Instrument): number {
  return combine([fromHalfWidth(meterHalfWidth(reading, meter)), fromResolution(meter.resolution)]);
}

type Settled = (Corrected & { readonly kind: 'settled'; readonly uncertainty: number }) | Refusal;

function settle({ value, budget }: Corrected, typed: string, window: Window, field: Refusal['field']): Settled {
  const uncertainty = combine(budget.map(({ u }) => u));
  if (window.quantity !== 'resistance' || value >= 0) return { kind: 'settled', value, uncertainty, budget };
  if (-value <= ZERO_COVERAGE * uncertainty) return { kind: 'settled', value: 0, uncertainty, budget };
  return {
    kind: 'refused',
    field,
    typed,
    ...refuse('leads-exceed', { typed, left: formatQuantity(value, 'resistance') }),
  };
}

function edgesOf(window: Window, good: Extract<Settled, { kind: 'settled' }> | undefined): readonly UncertainEdge[] {
  if (!good || !window.relative) return window.edges;
  return window.relative.map(({ at, tolerance }) => ({
    at: at * good.value,
    tolerance,
    uncertainty: at * good.uncertainty,
  }));
}

function onStates(bands: readonly number[], window: Window, finding: Finding): number[] {
  const byState = new Map<Id, number>();
  for (const [index, state] of window.bands.entries())
    byState.set(state, (byState.get(state) ?? 0) + (bands[index] ?? 0));
  return finding.states.map(({ id }) => byState.get(id) ?? 0);
}

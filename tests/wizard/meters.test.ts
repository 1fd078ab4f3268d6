import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Quantity } from '../../src/evidence/quantity.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import type { Record } from '../../src/record/schema.ts';
import type { Meter, Shop } from '../../src/shop/schema.ts';
import { findingAnswer, typeReading } from '../../src/wizard/desk.ts';
import { figuresOf, METER_DRAFT, meterOf, setMeter } from '../../src/wizard/meters.ts';

const AT = '2026-11-24T09:00:00Z';
const empty: Record = { format: 1, id: 'card', title: 'Card', timeline: [{ type: 'arrived', at: AT, facts: {} }] };
const quantityOf = (finding: string): Quantity | undefined =>
  finding.startsWith('resistance') ? 'resistance' : finding.startsWith('voltage') ? 'voltage' : undefined;
let knowledge: Knowledge;
let shop: Shop;
let meters: readonly Meter[];

beforeAll(async () => {
  const [loaded, profile] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!loaded.ok || !profile.ok) throw new Error('the knowledge in rules/ does not parse: run the audit');
  knowledge = loaded.knowledge;
  shop = profile.shop;
  meters = shop.meters ?? [];
});

const measured = () => typeReading(typeReading(empty, 'resistance-core', '0.31', AT), 'voltage-core', '0.95', AT);

describe('the meter that readings are taken with', () => {
  it('is that of the shop profile until another is chosen, also before the first reading', () => {
    expect(meterOf(empty, new Map(), meters, quantityOf)).toEqual({ kind: 'usual' });
    const [first] = meters;
    expect(meterOf(empty, new Map([[METER_DRAFT, first!.id]]), meters, quantityOf)).toEqual({
      kind: 'listed',
      meter: first,
    });
    expect(meterOf(empty, new Map([[METER_DRAFT, 'sold-long-ago']]), meters, quantityOf)).toEqual({ kind: 'usual' });
  });

  it('is kept with every reading, each with the figures for its quantity, and can be taken back', () => {
    const meter = meters[0]!;
    const record = setMeter(measured(), { kind: 'listed', meter }, quantityOf);
    expect(findingAnswer(record, 'resistance-core', 'bench')).toMatchObject({ instrument: meter.resistance });
    expect(findingAnswer(record, 'voltage-core', 'bench')).toMatchObject({ instrument: meter.voltage });
    expect(meterOf(record, new Map(), meters, quantityOf)).toEqual({ kind: 'listed', meter });
    expect(setMeter(record, { kind: 'usual' }, quantityOf)).toEqual(measured());
  });

  it('of a record made at another bench is shown as what it is', () => {
    const instrument = { name: 'a meter of another bench', percent: 3, digits: 5, resolution: 0.1 };
    const record = typeReading(empty, 'resistance-core', '0.31', AT, { instrument });
    expect(meterOf(record, new Map(), meters, quantityOf)).toEqual({ kind: 'other', name: instrument.name });
  });

  it('narrows the uncertainty of a reading when it is the better one', async () => {
    const spread = async (record: Record) => {
      const assessment = await assess(knowledge, shop, record, { plan: false });
      if (assessment.kind !== 'assessed') throw new Error(assessment.kind);
      return assessment.evidence.find(({ finding }) => finding === 'resistance-core')!.reading!.uncertainty!;
    };
    const fine = meters.toSorted((a, b) => a.resistance.resolution - b.resistance.resolution)[0]!;
    const usual = typeReading(empty, 'resistance-core', '0.31', AT);
    const better = setMeter(usual, { kind: 'listed', meter: fine }, quantityOf);
    expect(await spread(better)).toBeLessThan((await spread(usual)) / 2);
    expect(figuresOf({ kind: 'listed', meter: fine }, 'temperature'), 'it takes no temperatures').toBeUndefined();
  });
});

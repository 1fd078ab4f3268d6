import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../src/joints/alloys.ts';
import { bakeNeeded } from '../../src/joints/bake.ts';
import { REFLOW_CLASSES } from '../../src/joints/reflow-window.ts';
import type { Record as CardRecord, Event } from '../../src/record/schema.ts';
import { WorkOrder } from '../../src/work-order/schema.ts';
import { workOrder } from '../../src/work-order/work-order.ts';
import { assessed, card, knowledge, orderFor, shop } from './cards.ts';

const dear = card('ball-crack-on-a-dear-card');
const chip = card('one-memory-chip');

function withFacts(record: CardRecord, facts: Extract<Event, { type: 'arrived' }>['facts']): CardRecord {
  return {
    ...record,
    timeline: record.timeline.map((event) =>
      event.type === 'arrived' ? { ...event, facts: { ...event.facts, ...facts } } : event,
    ),
  };
}

describe('Every remedy', () => {
  it.each(knowledge.remedies.map(({ id }) => id))(
    '%s has an order that ends with resistance, voltage, image',
    async (id) => {
      const order = await orderFor(dear, { remedy: id });
      WorkOrder.parse(order);
      const at = (step: string) => order.steps.findIndex((one) => one.id === step);
      const powered = order.steps.findIndex(({ power }) => power !== null);
      expect(at('resistances')).toBeGreaterThan(0);
      expect(at('resistances')).toBeLessThan(powered);
      expect(order.steps[powered]?.power).toBe('limited');
      expect(at('first-image')).toBeGreaterThan(powered);
      expect(order.steps.map(({ number }) => number)).toEqual(order.steps.map((_, i) => i + 1));
      for (const step of order.steps) {
        expect(step.record.length, step.id).toBeGreaterThan(0);
        expect(JSON.stringify(step)).not.toMatch(/[{]\w+[}]|degC|\bum\b|mm2|mm3/);
        for (const caution of step.cautions) expect(order.cautions.map((one) => one.id)).toContain(caution);
      }
      const remedy = knowledge.remedies.find((one) => one.id === id)!;
      expect(order.cautions.map((one) => one.id)).toEqual(expect.arrayContaining([...remedy.cautions]));
      expect(order.heat === null).toBe(remedy.heatCycles === 0);
      expect(order.targets === null).toBe(remedy.heatCycles === 0);
    },
  );
});

describe('A reball', () => {
  it('stops at the hold points the trade stops at, in its order', async () => {
    const order = await orderFor(dear);
    expect(order.remedy).toBe('reball-core-leaded');
    const places = [
      'pads-flat',
      'apertures-filled',
      'balls-wetted',
      'grid-after-cleaning',
      'seated',
      'joined',
      'cooled-clean',
      'resistances',
      'rails-limited',
      'first-image',
    ].map((step) => order.steps.findIndex(({ id }) => id === step));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });

  /** Facts of the trade from the project's list: common practice, no source. */
  it('names the figures of the trade and says that they have no source', async () => {
    const order = await orderFor(dear);
    const figures = (step: string) => order.steps.find(({ id }) => id === step)!.figures;
    expect(figures('balls-wetted')).toEqual([
      { text: '200 °C', from: 'common practice, no source', basis: 'practice' },
      { text: '260 °C', from: 'common practice, no source', basis: 'practice' },
    ]);
    expect(figures('rails-limited')).toEqual([{ text: '3 A', from: 'common practice, no source', basis: 'practice' }]);
    const words = JSON.stringify(order);
    for (const said of ['lowest flow', 'lowers the melting range', 'or the board warps', 'or pads lift'])
      expect(words).toContain(said);
    expect(order.steps.find(({ id }) => id === 'balls-wetted')?.howTo.join(' ')).toMatch(
      /First pass: .*stick.* Second pass: flood/,
    );
    expect(order.notes.every(({ from }) => from === 'common practice, no source')).toBe(true);
  });

  it('melts the alloy it is done with, and keeps to the class of that alloy', async () => {
    const [leaded, free] = await Promise.all([orderFor(dear), orderFor(dear, { remedy: 'reball-core-lead-free' })]);
    expect(leaded.solder).toMatchObject({ alloy: 'Sn63Pb37', liquidusCelsius: 183, from: 'procedure' });
    expect(free.solder).toMatchObject({ alloy: 'SAC305', liquidusCelsius: findAlloy('SAC305')!.liquidusCelsius });
    const above = (order: typeof leaded) =>
      order.targets!.rows.find(({ measure }) => measure === 'secondsAboveLiquidus');
    const { atLeast, atMost } = REFLOW_CLASSES.snpb.secondsAboveLiquidus as { atLeast: number; atMost: number };
    expect(above(leaded)).toMatchObject({ name: 'Time above 183 °C', limit: `${atLeast} to ${atMost} s` });
    expect(above(free)?.name).toBe('Time above 217 °C');
  });

  it('keeps to the lowest ceiling that the size of the package allows while nobody has measured it', async () => {
    const peak = async (known: object) =>
      (await orderFor(dear, { package: known })).targets!.rows.find(({ measure }) => measure === 'peak')?.limit;
    // J-STD-020D table 4-2: 245 °C for thick and large packages, 260 °C for thin ones
    expect(await peak({})).toBe('at most 245 °C');
    expect(await peak({ bodyMillimetres: 1.2 })).toBe('at most 260 °C');
  });

  it('keeps to the shop’s own window where it has one for the solder', async () => {
    const window = {
      name: 'our leaded cores',
      levels: { soakFrom: 120, soakTo: 160, liquidus: 183 },
      limits: { peak: { atLeast: 205, atMost: 218 } },
    };
    const own = { ...shop, reflowWindows: [{ solder: 'leaded' as const, window }] };
    const order = workOrder(knowledge, own, dear, await assessed(dear));
    expect(order.kind === 'order' && order.targets).toMatchObject({
      kind: 'shop',
      window: 'our leaded cores',
      rows: [{ measure: 'peak', limit: '205 to 218 °C' }],
    });
    const free = workOrder(knowledge, own, dear, await assessed(dear), { remedy: 'reball-core-lead-free' });
    expect(free.kind === 'order' && free.targets?.kind).toBe('package-class');
  });
});

/** level 3, out of its bag for 100 of its 168 hours */
const within = {
  moistureLevel: '3',
  bodyMillimetres: 1.2,
  gridMillimetres: 14,
  exposureHours: 100,
  room: 'within',
} as const;

describe('The bake of a work order', () => {
  it('counts an unknown package as wet through, says what it assumes and what the cautious level asks for', async () => {
    const { bake, steps } = await orderFor(chip);
    const package_ = knowledge.packages.find(({ id }) => id === 'memory')!;
    const hoursAt = (level: '3' | '5a') => {
      const need = bakeNeeded({ level, bodyMillimetres: package_.bodyMillimetres, hours: 'unknown', room: 'unknown' });
      return need.kind === 'bake' ? need.choices.map(({ hours }) => hours) : [];
    };
    expect(bake.kind).toBe('bake');
    expect(bake.choices.map(({ hours }) => hours)).toEqual(hoursAt('3'));
    expect(bake.cautious.map(({ hours }) => hours)).toEqual(hoursAt('5a'));
    expect(bake.cautiousLevel).toBe('5a');
    expect(bake.assumed.join(' ')).toMatch(/Moisture level 3, usual for a memory chip; the cautious one is 5a/);
    expect(bake.assumed.join(' ')).toMatch(/unknown time: counts as wet through/);
    expect(steps.map(({ id }) => id)).toContain('baked');
  });

  it('falls away, hold point and all, for a package known to be within its floor life', async () => {
    const { bake, steps } = await orderFor(chip, { package: within });
    // J-STD-020 table 5-1: level 3 has 168 hours
    expect(bake).toMatchObject({ kind: 'none', cautiousLevel: null, assumed: [] });
    expect(bake.words[0]).toContain('100 of 168 hours');
    expect(steps.map(({ id }) => id)).not.toContain('baked');
  });

  it('believes no hours of a card that was stored damp', async () => {
    const { bake } = await orderFor(withFacts(chip, { 'stored-damp': true }), { package: within });
    expect(bake.kind).toBe('bake');
    expect(bake.words.join(' ')).toContain('By its history it lay damp or wet.');
  });

  it('is not asked where no package is melted', async () => {
    const { bake, solder } = await orderFor(dear, { remedy: 'replace-fuse' });
    expect([bake.kind, solder]).toEqual(['not-asked', null]);
  });
});

describe('The heat budget of a work order', () => {
  const row = (order: WorkOrder, id: string) => order.heat!.allowances.find((one) => one.id === id)!;

  it('counts the factory, the cycles that were told, and every treatment in the record before this work', async () => {
    const told = await orderFor(withFacts(chip, { 'earlier-heat-work': 'reflow', 'heat-cycles': 1 }));
    expect(row(told, 'board-passes')).toMatchObject({ spent: 3, takes: 1, left: 3, leftAfter: 2 });
    const at = '2027-01-01T10:00:00Z';
    const treated: CardRecord = {
      ...chip,
      timeline: [...chip.timeline, { type: 'treated', at, remedy: 'replace-memory-chip', worked: false }],
    };
    const [before, after] = [await orderFor(chip), await orderFor(treated, { remedy: 'replace-memory-chip' })];
    expect(row(after, 'board-passes').spent).toBe(row(before, 'board-passes').spent + 1);
    expect(row(after, 'location-reworks')).toMatchObject({ spent: 1, leftAfter: -1 });
    expect(after.warnings.join(' ')).toMatch(/goes beyond .*reworks of one location by 1/);
  });

  it('takes earlier work that nobody counted for the least it costs, and says that it may be more', async () => {
    const unknown = await orderFor(withFacts(dear, { 'earlier-heat-work': 'reball', 'heat-cycles': null }), {
      remedy: 'reflow-core',
    });
    expect(unknown.heat).toMatchObject({ known: false });
    expect(row(unknown, 'board-passes').spent).toBe(4);
    expect(unknown.heat!.words[0]).toContain('or more: nobody has counted');
  });

  it('starts a new part at nothing', async () => {
    const order = await orderFor(chip, { remedy: 'replace-memory-chip' });
    expect(row(order, 'part-passes')).toMatchObject({ spent: 0, takes: 1 });
  });
});

describe('The solder of a work order', () => {
  it('is what the joints were last made of, where the record tells', async () => {
    const at = '2027-01-01T10:00:00Z';
    const leaded: CardRecord = {
      ...dear,
      timeline: [...dear.timeline, { type: 'treated', at, remedy: 'reball-core-leaded', worked: false }],
    };
    expect((await orderFor(leaded, { remedy: 'reflow-core' })).solder).toMatchObject({
      alloy: 'Sn63Pb37',
      from: 'record',
    });
    expect((await orderFor(dear, { remedy: 'reflow-core' })).solder).toMatchObject({
      alloy: 'SAC305',
      from: 'assumed',
    });
  });

  it('may be a mix where unknown hands were there, and lead is then warned of', async () => {
    const order = await orderFor(withFacts(dear, { 'earlier-heat-work': 'kind-unknown' }), { remedy: 'reflow-core' });
    expect(order.solder?.words.join(' ')).toContain('leaded, or a mix that melts where no table says');
    expect(order.cautions.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['lead-health', 'leaded-or-unknown-alloy']),
    );
  });

  it('has no class of the standard for every alloy: then a window of the shop’s own is asked for', async () => {
    const order = await orderFor(dear, { alloy: 'Sn42Bi58' });
    expect([order.solder?.class, order.targets]).toEqual([null, null]);
  });
});

describe('Whether there is an order at all', () => {
  it('says that no work is advised where the verdict is to leave the card', async () => {
    const record = card('works-in-another-computer');
    const order = workOrder(knowledge, shop, record, await assessed(record));
    expect(order).toMatchObject({ kind: 'no-order', because: expect.stringContaining('no work is advised') });
  });

  it('says of other work than the verdict’s that it is, and why it is closed', async () => {
    const record = card('chipped-die');
    const order = await orderFor(record, { remedy: 'reball-core-leaded' });
    expect(order.advised).toBe(false);
    expect(order.warnings.join(' ')).toMatch(/this order is for other work/);
    expect(order.warnings.join(' ')).toMatch(/Closed for this card: /);
  });

  it('says what is not on this bench', async () => {
    const bare = { ...shop, equipment: [] };
    const order = workOrder(knowledge, bare, dear, await assessed(dear), { remedy: 'replace-fuse' });
    expect(order.kind === 'order' && order.warnings.join(' ')).toContain(
      'Not on this bench: Hot-air station, Microscope.',
    );
  });

  it.each([
    [{ remedy: 'reball-cor' }, '"reball-cor" is no remedy that is known here.'],
    [{ alloy: 'Sn99' }, 'No alloy is called "Sn99".'],
  ])('refuses %j with what there is', async (choices, because) => {
    const order = workOrder(knowledge, shop, dear, await assessed(dear), choices);
    expect(order.kind === 'no-order' && order.because).toBe(because);
    expect(order.kind === 'no-order' && order.todo).not.toBe('');
  });
});

/** The balls of a work order, and what of them is printed. */
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { inLanguage } from '../../src/knowledge/load.ts';
import type { Balls } from '../../src/record/balls.ts';
import { checkRecord } from '../../src/record/check.ts';
import { parseRecord } from '../../src/record/parse.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { WorkOrder } from '../../src/work-order/schema.ts';
import { sheetHtml } from '../../src/work-order/sheet-html.ts';
import { sheetText } from '../../src/work-order/sheet-text.ts';
import { takeBackStep } from '../../src/work-order/take-back.ts';
import { workOrder } from '../../src/work-order/work-order.ts';
import { assessed, card, knowledge, orderFor, recorded, shop } from './cards.ts';

const MEASURED: Balls = {
  ballMillimetres: 0.5,
  packagePadMillimetres: 0.4,
  boardPadMillimetres: 0.4,
  pitchMillimetres: 0.8,
  padAlloy: 'SAC305',
  leftMillimetres: 0.02,
};
const arrived = card('ball-crack-on-a-dear-card');
const withBalls = (core: Balls): CardRecord => ({ ...arrived, balls: { core } });
const measured = withBalls(MEASURED);
/** Lines are broken where the paper ends. */
const flat = (text: string) => text.replace(/\s+/g, ' ');

describe('The balls of an order', () => {
  it('belong to work that places some: reball, core and memory swap, and no other', async () => {
    const placing = [];
    for (const { id: remedy } of knowledge.remedies)
      if ((await orderFor(measured, { remedy })).balls !== null) placing.push(remedy);
    expect(placing.sort()).toEqual([
      'reball-core-lead-free',
      'reball-core-leaded',
      'reball-memory-chip',
      'replace-core',
      'replace-memory-chip',
    ]);
  });

  it('are those on the record for that package, in the solder of the work where none is named', async () => {
    const order = await orderFor(measured, { remedy: 'reball-core-leaded' });
    expect(WorkOrder.safeParse(order).error).toBeUndefined();
    // .50 on .40: stand-off .3469 without what is left on the pads, which lifts it
    expect(order.balls?.joint?.shape?.standOffMillimetres).toBeGreaterThan(0.3469);
    expect(order.balls?.joint?.mixture).toMatchObject({ ballAlloy: 'Sn63Pb37', padAlloy: 'SAC305' });
    const memory = await orderFor(measured, { remedy: 'reball-memory-chip' });
    expect(memory.balls).toMatchObject({ package: 'memory', joint: null });
  });

  it('move neither causes nor verdict', async () => {
    const [bare, told] = [await assessed(arrived), await assessed(measured)];
    expect(told.verdict).toEqual(bare.verdict);
    expect(told.ranking).toEqual(bare.ranking);
  });

  it('stay on the record when the work begins and when its first hold point is taken back', async () => {
    const order = await orderFor(measured);
    const begun = recorded(order, measured, { step: order.steps[0]!.id, outcome: 'passed' });
    expect(begun.balls).toEqual(measured.balls);
    expect(takeBackStep(order, begun)?.record).toEqual(measured);
  });
});

describe('The job sheet', () => {
  it('prints what was measured and what becomes of it, with the sources, as text and as a page', async () => {
    const order = await orderFor(measured, { remedy: 'reball-core-leaded' });
    for (const sheet of [sheetText(order), sheetHtml(order)]) {
      const printed = flat(sheet);
      expect(printed).toContain('ball diameter: 0.5 mm; package pad: 0.4 mm; board pad: 0.4 mm; pitch: 0.8 mm');
      expect(printed).toMatch(/Stand-off 0\.36\d mm after collapse/);
      expect(printed).toContain('land 0.4 mm, 0.35 to 0.45 mm (IPC-7095, quoted)');
      expect(printed).toContain('Below 220 °C the SAC305 part does not melt through');
      expect(printed).toContain('a real joint is lower and wider');
    }
  });

  it('prints the same in German', async () => {
    const german = await inLanguage(knowledge, 'de');
    const assessment = await assess(german, shop, measured, { draws: 0 });
    if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment));
    const order = workOrder(german, shop, measured, assessment, { remedy: 'reball-core-leaded' });
    if (order.kind !== 'order') throw new Error(order.because);
    for (const sheet of [sheetText(order), sheetHtml(order)]) {
      expect(flat(sheet)).toContain('Kugeldurchmesser: 0,5 mm; Pad am Gehäuse: 0,4 mm');
      expect(flat(sheet)).toMatch(/Abstand 0,36\d mm nach dem Zusammensinken/);
      expect(flat(sheet)).toContain('(IPC-7095, zitiert)');
    }
  });

  it('leaves blanks to measure and write where nothing is on the record, and none where no ball is placed', async () => {
    const order = await orderFor(arrived, { remedy: 'reball-core-leaded' });
    for (const sheet of [sheetText(order), sheetHtml(order)])
      expect(flat(sheet)).toContain(
        'Not measured yet: measure before the work and write down. ball diameter: ________ mm',
      );
    expect(sheetText(await orderFor(arrived, { remedy: 'reflow-core' }))).not.toContain('Balls');
  });

  it('prints what contradicts itself instead of a joint', async () => {
    const order = await orderFor(withBalls({ ...MEASURED, pitchMillimetres: 0.4 }));
    for (const sheet of [sheetText(order), sheetHtml(order)])
      expect(flat(sheet)).toContain('neighbouring pads would touch.');
  });

  it('shows what was typed as text, whatever is in it', async () => {
    const page = sheetHtml(await orderFor(withBalls({ ...MEASURED, ballAlloy: '<b>x</b>' })));
    expect(page).not.toContain('<b>x</b>');
    expect(page).toContain('&lt;b&gt;x&lt;/b&gt;');
  });
});

describe('Balls on a record', () => {
  const issues = (balls: unknown) => {
    const parsed = parseRecord({ ...arrived, balls });
    return parsed.ok ? [] : parsed.issues.map(({ path }) => path);
  };

  it('are read strictly: no stray field, no figure beyond what a ball can be', () => {
    expect(issues({ core: MEASURED, memory: {} })).toEqual([]);
    expect(issues({ core: { ballMillimeters: 0.5 } })).toEqual(['balls.core.ballMillimeters']);
    expect(issues({ core: { ballMillimetres: 0 } })).toEqual(['balls.core.ballMillimetres']);
    expect(issues({ core: { pitchMillimetres: 11 } })).toEqual(['balls.core.pitchMillimetres']);
    expect(issues({ core: { ballMillimetres: '0.5' } })).toEqual(['balls.core.ballMillimetres']);
    expect(issues({ core: { voidsMillimetres: [-1] } })).toEqual(['balls.core.voidsMillimetres.0']);
  });

  it('belong to a package that the rules know', () => {
    expect(checkRecord({ ...arrived, balls: { cores: MEASURED } }, knowledge)).toMatchObject([
      { path: 'balls.cores', wrong: '"cores" is not a package that is known here.' },
    ]);
  });
});

import { beforeAll, describe, expect, it } from 'vitest';
import { leftWorking } from '../../src/assess/after.ts';
import { assess } from '../../src/assess.ts';
import type { Assessed } from '../../src/assessment.ts';
import { exportKnowledge } from '../../src/knowledge/export.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { USUAL_RESTRAINT } from '../../src/shop/restraint.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { knowledgeAndShop, workedCase, workedCases } from './worked-cases.ts';

let knowledge: Knowledge;
let shop: Shop;
const all: Assessed[] = [];
beforeAll(async () => {
  ({ knowledge, shop } = await knowledgeAndShop());
  for (const { record } of workedCases) {
    const assessment = await assess(knowledge, shop, record);
    if (assessment.kind === 'assessed') all.push(assessment);
  }
}, 120_000);

/** Thirty lines of brute force over the exported knowledge: nothing here comes from `src/belief`. */
function bruteForce(assessment: Assessed, model: ReturnType<typeof exportKnowledge>): Map<string, number> {
  const ids = model.faults.map((fault) => fault.id);
  const sets: string[][] = [[]];
  for (let a = 0; a < ids.length; a++) {
    sets.push([ids[a]!]);
    for (let b = a + 1; b < ids.length; b++) {
      sets.push([ids[a]!, ids[b]!]);
      for (let c = b + 1; c < ids.length; c++) sets.push([ids[a]!, ids[b]!, ids[c]!]);
    }
  }
  const chance = new Map(ids.map((id) => [id, 0]));
  let total = 0;
  for (const set of sets) {
    let weight = set.length === 0 ? assessment.prior.empty : 1;
    for (const fault of set) weight *= assessment.audit.odds[fault]!;
    for (const [id, weights] of Object.entries(assessment.audit.weights)) {
      const finding = model.findings.find((known) => known.id === id)!;
      const upTo = (row: readonly number[], x: number) => row.slice(0, x + 1).reduce((sum, p) => sum + p, 0);
      const cumulative = finding.states.map((_, x) =>
        set.reduce(
          (product, fault) => product * (finding.given[fault] ? upTo(finding.given[fault], x) : 1),
          upTo(finding.leak, x),
        ),
      );
      weight *= weights.reduce((sum, w, x) => sum + w * (cumulative[x]! - (x > 0 ? cumulative[x - 1]! : 0)), 0);
    }
    total += weight;
    for (const fault of set) chance.set(fault, chance.get(fault)! + weight);
  }
  return new Map([...chance].map(([id, weight]) => [id, weight / total]));
}

describe('a card that is likely sound', () => {
  const at = '2026-11-25T09:00:00Z';
  const seen = (finding: string, state: string, by: 'bench' | 'owner' = 'bench') =>
    ({ type: 'seen', at, finding, state, by }) as const;
  /** It crashes in the owner's computer and runs in another, says the owner; the bench has so far only looked at it. */
  const told = (more: CardRecord['timeline'] = []): CardRecord => ({
    format: 1,
    id: 'fine-card-old-supply',
    title: 'Fine card, old supply',
    invented: true,
    money: { working: 300, asIs: 55, partsAfterWork: 35 },
    timeline: [
      {
        type: 'arrived',
        at,
        facts: {
          'die-size': 'medium',
          'memory-type': 'gddr6',
          'memory-chips': 8,
          'power-connectors': 'one',
          'power-class': 'up-to-300',
          'second-core-rail': false,
          'age-years': 2,
          mined: false,
          knocked: false,
          liquid: false,
          'stored-damp': false,
          'earlier-heat-work': 'none',
          'other-repair': false,
          'cooler-opened': false,
          'new-host-part': true,
          'firmware-changed': false,
          'onset-manner': 'sudden',
          'works-elsewhere': true,
        },
      },
      seen('onset', 'after-minutes-warm', 'owner'),
      seen('start-up', 'crash-under-load', 'owner'),
      seen('look-board', 'clean'),
      seen('look-edge-connector', 'clean'),
      seen('look-power-connector', 'clean'),
      ...more,
    ],
  });

  it('goes back only once somebody here has seen it start, or it has left the bench working', async () => {
    const before = await assess(knowledge, shop, told());
    expect(before).toMatchObject({ kind: 'assessed', verdict: { kind: 'return' }, next: { kind: 'check' } });
    const rails = knowledge.checks.find(({ id }) => id === 'rail-resistances')!.yields;
    const measured = rails.map((finding) => seen(finding, 'normal'));
    // measuring alone is not enough
    expect(await assess(knowledge, shop, told(measured))).toMatchObject({
      verdict: { kind: 'return' },
      next: { kind: 'check' },
    });
    const started = seen('start-up', 'desktop');
    expect(await assess(knowledge, shop, told([...measured, started]))).toMatchObject({
      verdict: { kind: 'return' },
      next: { kind: 'act' },
    });
    expect(leftWorking([{ type: 'treated', at, remedy: 'thermal-service', worked: true }])).toBe(true);
    expect(
      leftWorking([
        { type: 'treated', at, remedy: 'thermal-service', worked: true },
        { type: 'came-back', at },
      ]),
    ).toBe(false);
  });
});

describe('an assessment', () => {
  it('justifies no repair that works only because the cooler goes back on with fresh paste', () => {
    const { options } = all.find((one) => one.record === workedCase('cooling-only').record.id)!;
    const paste = options.find(({ steps }) => steps.join() === 'thermal-service')!;
    const others = options.filter(({ verdict, works }) => verdict !== 'service' && works > 0.05);
    expect(others.length).toBeGreaterThan(0);
    for (const option of others) expect(option, option.name).toMatchObject({ justified: false, outdoneBy: paste.name });
  });

  it('calls no option outdone by one that is not cheaper, and lets its own verdict stand', () => {
    for (const { options, verdict } of all) {
      for (const option of options.filter(({ outdoneBy }) => outdoneBy !== undefined)) {
        expect(option.justified, option.name).toBe(false);
        expect(option.id).not.toBe(verdict.option);
        const better = options.find(({ name }) => name === option.outdoneBy);
        if (better) expect(better.cost.total).toBeLessThan(option.cost.total);
      }
    }
  });

  it('sends nobody to tell two causes apart by what has been looked at already', () => {
    const model = exportKnowledge(knowledge);
    const rowOf = (finding: string, fault: string) => {
      const { leak, given, states } = model.findings.find(({ id }) => id === finding)!;
      const upTo = (row: readonly number[], x: number) => row.slice(0, x + 1).reduce((sum, p) => sum + p, 0);
      const below = states.map((_, x) => upTo(leak, x) * (given[fault] ? upTo(given[fault], x) : 1));
      return below.map((c, x) => c - (below[x - 1] ?? 0));
    };
    let named = 0;
    for (const assessment of all) {
      const looked = new Set(assessment.evidence.filter(({ origin }) => origin !== 'owner').map((one) => one.finding));
      for (const { faults, check } of assessment.inseparable) {
        if (check === null) continue;
        named += 1;
        const left = knowledge.checks.find(({ id }) => id === check)!.yields.filter((finding) => !looked.has(finding));
        const apart = left.map((finding) => {
          const [one, other] = faults.map((fault) => rowOf(finding, fault)) as [number[], number[]];
          return one.reduce((sum, p, x) => sum + Math.abs(p - other[x]!) / 2, 0);
        });
        expect(Math.max(0, ...apart), `${assessment.record}: ${faults.join(' / ')} by ${check}`).toBeGreaterThan(0.2);
      }
    }
    expect(named).toBeGreaterThan(5);
  });

  it('holds out no price at which a card that is hardly sound would be called so', () => {
    for (const { record, sound, verdict } of all) {
      if (sound >= 0.1) continue;
      expect(
        verdict.breakEvens.filter(({ becomes }) => becomes === 'return'),
        record,
      ).toEqual([]);
    }
  });

  it('calls only what is worse the next best, also where the bench wants more mended than the best option mends', async () => {
    const demanding = { ...shop, restraint: { ...USUAL_RESTRAINT, leastMended: 0.45 } };
    for (const { record } of workedCases) {
      const assessment = await assess(knowledge, demanding, record, { plan: false });
      if (assessment.kind !== 'assessed') continue;
      expect(
        assessment.verdict.reasons.filter((reason) => /: -\S+ less\.$/.test(reason)),
        record.id,
      ).toEqual([]);
    }
  });

  it('can be recomputed by brute force from the exported knowledge and its own audit, to 1e-9', () => {
    for (const id of ['bump-or-ball', 'melted-connector']) {
      const assessment = all.find((one) => one.record === workedCase(id).record.id)!;
      const chances = bruteForce(assessment, exportKnowledge(knowledge));
      for (const ranked of assessment.ranking)
        expect(Math.abs(ranked.chance - chances.get(ranked.fault)!)).toBeLessThan(1e-9);
    }
  }, 120_000);

  it('opens a price band exactly where the surplus reaches the margin', () => {
    let bands = 0;
    for (const assessment of all) {
      for (const option of assessment.options) {
        if (option.floor === null || option.ceiling === null) continue;
        bands += 1;
        expect(option.ceiling >= option.floor).toBe(option.surplus >= option.margin);
        expect(option.justified).toBe(option.surplus >= option.margin && option.outdoneBy === undefined);
      }
    }
    expect(bands).toBeGreaterThan(100);
  });

  it('states a plan no worse than deciding now and no better than its bound', () => {
    for (const { certificate } of all) {
      expect(certificate.value).toBeGreaterThanOrEqual(certificate.now - 1e-9);
      expect(certificate.upperBound).toBeGreaterThanOrEqual(certificate.value - 1e-9);
    }
  });

  it('never sends a card under power before its rails are known', async () => {
    const powered = new Set(knowledge.checks.filter((check) => check.powers).map((check) => check.id));
    for (const { record } of workedCases) {
      const unmeasured = { ...record, timeline: record.timeline.filter((event) => event.type === 'arrived') };
      const assessment = await assess(knowledge, shop, unmeasured);
      if (assessment.kind !== 'assessed') throw new Error(assessment.kind);
      if (assessment.next.kind === 'check') expect(powered.has(assessment.next.check)).toBe(false);
      for (const check of assessment.checks) if (powered.has(check.check)) expect(check.state).toBe('closed');
    }
  }, 60_000);

  it('does not count a repair that is closed among the options', () => {
    const chipped = all.find((one) => one.record === workedCase('chipped-die').record.id)!;
    expect(chipped.closedRemedies.map((closed) => closed.id)).toContain('reball-core-lead-free');
    for (const option of chipped.options) expect(option.steps).not.toContain('reball-core-lead-free');
  });

  it('never holds a repair that mends hardly any card against a return, however much its surplus is', async () => {
    const at = '2026-03-02T09:00:00Z';
    const normal = { 'resistance-core': '2.1', 'resistance-memory': '55', 'resistance-pcie-rail': '20' };
    const inputs = { 'resistance-1v8': '450', 'resistance-12v-slot': '20k', 'resistance-12v-input': '21k' };
    const clean = ['look-board', 'look-edge-connector', 'look-power-connector'];
    const assessed = await assess(knowledge, shop, {
      format: 1,
      id: 'works-elsewhere',
      title: 'Works in another computer',
      money: { working: 180, asIs: 45, partsAfterWork: 40 },
      timeline: [
        {
          ...{ type: 'arrived', at },
          facts: {
            ...{ 'die-size': 'small', 'memory-type': 'gddr6', 'power-connectors': 'one', 'power-class': 'up-to-150' },
            ...{ 'second-core-rail': false, 'memory-chips': 4, 'age-years': 1, mined: false, liquid: false },
            ...{ 'earlier-heat-work': 'none', 'cooler-opened': false, 'new-host-part': true },
            ...{ 'onset-manner': 'sudden', 'owner-words': ['no-display', 'not-detected'], 'works-elsewhere': true },
          },
        },
        { type: 'seen', at, finding: 'start-up', state: 'not-detected', by: 'owner' },
        ...clean.map((finding) => ({ type: 'seen', at, finding, state: 'clean', by: 'bench' })),
        ...Object.entries({ ...normal, ...inputs }).map(([finding, typed]) => ({
          ...{ type: 'measured', at, finding, typed },
        })),
        { type: 'seen', at, finding: 'idle-input-current', state: 'normal', by: 'bench' },
      ],
    });
    if (assessed.kind !== 'assessed') throw new Error(assessed.kind);
    const { verdict, options, sound } = assessed;
    const chosen = options.find(({ id }) => id === verdict.option)!;
    const better = options.filter(
      ({ waitsFor, surplus, margin }) => !waitsFor && surplus - margin > chosen.surplus - chosen.margin,
    );
    expect(verdict.kind).toBe('return');
    expect(better.length, 'some option has more surplus than the return').toBeGreaterThan(0);
    for (const option of better) {
      expect(option.mendsTooLittle).toBe(true);
      expect(option.works - sound).toBeLessThan(0.05);
    }
    // compared with one of those, the return would be the worse by less than nothing
    expect(verdict.reasons.join(' ')).toMatch(/Next best is [^:]+: €\d+ less/);
  });

  it('ranks causes the same in whatever order findings were written down', async () => {
    const { record } = workedCase('bump-or-ball');
    const [arrived, ...events] = record.timeline;
    // the same hour for all, so that any order is a timeline
    const at = arrived!.at;
    const same = [arrived!, ...events].map((event) => ({ ...event, at }));
    const turned = [same[0]!, ...same.slice(1).reverse()];
    const one = await assess(knowledge, shop, { ...record, timeline: same });
    const other = await assess(knowledge, shop, { ...record, timeline: turned });
    if (one.kind !== 'assessed' || other.kind !== 'assessed') throw new Error('not assessed');
    // what is set up at the bench (cooler on or off) follows the order; what is believed does not
    for (const part of ['evidence', 'ranking', 'sites', 'conditions', 'strain', 'sound'] as const)
      expect(other[part]).toEqual(one[part]);
  });

  it('keeps the same verdict for one purse as for two where no price can stand between them', async () => {
    const { record } = workedCase('melted-connector');
    const own = await assess(knowledge, shop, { ...record, money: { ...record.money, ownStock: true } });
    const two = await assess(knowledge, shop, record);
    if (own.kind !== 'assessed' || two.kind !== 'assessed') throw new Error('not assessed');
    expect(own.verdict.option).toBe(two.verdict.option);
    expect(own.options.every((option) => option.floor === null && option.ceiling === null)).toBe(true);
    expect(two.options.some((option) => option.floor !== null)).toBe(true);
  });

  it('says how firm the verdict is, the same for the same seed, and not the same for another', async () => {
    const { record } = workedCase('bump-or-ball');
    const run = (seed: number) => assess(knowledge, shop, record, { draws: 100, seed });
    const [one, again, other] = [await run(7), await run(7), await run(8)];
    if (one.kind !== 'assessed' || again.kind !== 'assessed' || other.kind !== 'assessed')
      throw new Error('not assessed');
    expect(again.sensitivity).toEqual(one.sensitivity);
    expect(other.options).not.toEqual(one.options);
    expect(one.sensitivity!.draws).toBe(100);
    expect(one.sensitivity!.winners.reduce((sum, winner) => sum + winner.share, 0)).toBeCloseTo(1, 12);
    for (const ranked of one.ranking) expect(ranked.interval!.low).toBeLessThanOrEqual(ranked.interval!.high);
  });
});

describe('a record that cannot be used', () => {
  it('comes back with everything wrong with it at once, and what was typed', async () => {
    const { record } = workedCase('melted-connector');
    const bad = {
      ...record,
      timeline: [
        ...record.timeline,
        { type: 'measured', at: record.timeline.at(-1)!.at, finding: 'resistance-core', typed: '-3' },
        { type: 'seen', at: record.timeline.at(-1)!.at, finding: 'no-such-finding', state: 'x', by: 'bench' },
      ],
    };
    const assessment = await assess(knowledge, shop, bad);
    if (assessment.kind !== 'bad-record') throw new Error(assessment.kind);
    expect(assessment.issues.length).toBeGreaterThanOrEqual(2);
    expect(assessment.issues.some((issue) => issue.typed === '-3')).toBe(true);
    expect(assessment.issues.some((issue) => issue.wrong.includes('no-such-finding'))).toBe(true);
  });

  it('is never an exception, whatever was handed in', async () => {
    for (const nonsense of [null, undefined, 3, 'record', [], {}, { format: 99 }]) {
      expect((await assess(knowledge, shop, nonsense)).kind).toBe('bad-record');
    }
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { LOG_ODDS_STEP, rankEstimates } from '../../src/knowledge/rank-estimates.ts';
import { shiftLogOdds, tilt, withCure, withRow } from '../../src/knowledge/vary.ts';
import { smallKnowledge } from './small-knowledge.ts';

describe('Moving one number', () => {
  it('moves the log-odds of a probability', () => {
    expect(shiftLogOdds(0.5, Math.log(3))).toBeCloseTo(0.75, 15);
    expect(shiftLogOdds(0.9, -Math.log(9))).toBeCloseTo(0.5, 15);
    expect([shiftLogOdds(0, 1), shiftLogOdds(1, 1)]).toEqual([0, 1]);
  });

  it('tilts a row about its likeliest state and keeps its sum', () => {
    const estimate = { n: 10, basis: 'estimate' } as const;
    const tilted = tilt({ p: { a: 0.3, b: 0.5, c: 0.2 }, ...estimate }, Math.log(3)).p;
    expect(tilted.b).toBeCloseTo(0.75, 15);
    expect(tilted.a).toBeCloseTo(0.15, 15);
    expect(tilted.c).toBeCloseTo(0.1, 15);
    const row = fc.array(fc.integer({ min: 1, max: 99 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(row, fc.double({ min: -3, max: 3, noNaN: true }), (weights, by) => {
        const total = weights.reduce((a, b) => a + b, 0);
        const p = Object.fromEntries(weights.map((weight, i) => [`state-${i}`, weight / total]));
        const sum = Object.values(tilt({ p, ...estimate }, by).p).reduce((a, b) => a + b, 0);
        expect(sum).toBeCloseTo(1, 12);
      }),
      { seed: 5 },
    );
  });

  it('compiles a moved row into the network and leaves the knowledge it came from alone', async () => {
    const knowledge = await smallKnowledge();
    const moved = withRow(knowledge, 'host-swap', 'core-joint-crack', Math.log(3));
    const rowOf = ({ network }: Knowledge) => [...network.findings[3]!.given[0]!.cumulative];
    // P(same fault | crack) 0.9 has odds 9; three times that is 27 to 1
    expect(rowOf(moved)[0]).toBeCloseTo(1 / 28, 15);
    expect(rowOf(knowledge)).toEqual([0.1, 1]);
    expect(moved.version).not.toBe(knowledge.version);
  });

  it('lets the mask give way to the cure', async () => {
    const moved = withCure(await smallKnowledge(), 'reball-core', 'core-joint-crack', 5);
    const { cures, masks } = moved.remedies[0]!.effects['core-joint-crack']!;
    expect(cures.p + masks!.p).toBeLessThanOrEqual(1);
    expect(cures.p).toBeGreaterThan(0.99);
  });
});

describe('Which estimates verdicts depend on', () => {
  /** A stand-in for the assessment whose dependence is known: the share of one fault and one row, nothing else. */
  async function assessed({ faults, findings }: Knowledge, weight: number) {
    const share = faults.find(({ id }) => id === 'core-joint-crack')!.share.p;
    const row = findings.find(({ id }) => id === 'host-swap')!.given['core-joint-crack']!.p['same-fault']!;
    return { verdict: share > 0.12 ? 'reball' : 'scrap', surplus: 100 * share + weight * row };
  }

  it('ranks what flips a verdict above what only moves money, and both above what moves nothing', async () => {
    const knowledge = await smallKnowledge();
    const faults = ['core-joint-crack', 'core-stage-short'];
    const cases = [
      { id: 'one', record: 1, faults, findings: ['host-swap', 'start-up'] },
      { id: 'two', record: 1000, faults, findings: ['host-swap'] },
    ];
    const ranked = await rankEstimates(knowledge, cases, assessed);
    expect(ranked[0]).toMatchObject({ kind: 'share', fault: 'core-joint-crack', flips: ['one', 'two'] });
    // 0.1 has odds 1/9
    expect(ranked[0]!.change).toBeCloseTo(100 * (1 / (1 + 9 * Math.exp(-LOG_ODDS_STEP)) - 0.1), 12);
    expect(ranked[1]).toMatchObject({ kind: 'row', finding: 'host-swap', fault: 'core-joint-crack', flips: [] });
    // the worst direction is downwards: 0.9 has odds 9; the two cases weigh it 1 and 1000
    expect(ranked[1]!.change).toBeCloseTo((1001 / 2) * (0.9 - 1 / (1 + Math.exp(LOG_ODDS_STEP) / 9)), 9);
    expect(ranked.slice(2).every(({ change }) => change === 0)).toBe(true);
  });

  it('tries on a case only what concerns it, and only estimates', async () => {
    const knowledge = await smallKnowledge();
    const tried: string[] = [];
    const watch = async (moved: Knowledge) => {
      tried.push(moved.version);
      return { verdict: 'scrap', surplus: 0 };
    };
    const ranked = await rankEstimates(
      knowledge,
      [{ id: 'one', record: 0, faults: ['host-supply'], findings: ['host-swap'] }],
      watch,
    );
    // the supply has no row on the host swap and no remedy: its share and the leak are all there is to move
    expect(ranked.map(({ kind }) => kind).sort()).toEqual(['leak', 'share']);
    expect(tried).toHaveLength(1 + 2 * 2);
    expect(new Set(tried).size).toBe(5);
  });
});

import { describe, expect, it } from 'vitest';
import { numbersByBasis, reportKnowledge, separations } from '../../src/knowledge/report.ts';
import { smallKnowledge } from './small-knowledge.ts';

describe('What the knowledge rests on', () => {
  it('counts every number under the innermost basis, sample sizes not', () => {
    const fault = {
      share: { p: 0.1, n: 20, basis: 'published', source: 'x', place: 'table 1' },
      relapse: { medianDays: 30, shape: 1.2, n: 5, basis: 'estimate' },
      heatCycles: 2,
    };
    expect(numbersByBasis([fault, { p: { a: 0.4, b: 0.6 }, n: 9, basis: 'practice' }])).toEqual({
      standard: 0,
      published: 1,
      practice: 2,
      estimate: 2,
      shop: 0,
    });
  });

  it('counts the numbers of every kind of file, and in total', async () => {
    const { numbers, byKind } = reportKnowledge(await smallKnowledge());
    // three shares; the crack's wear (2) and relapse (2)
    expect(byKind.faults).toEqual({ standard: 0, published: 0, practice: 0, estimate: 7, shop: 0 });
    expect(byKind.gates?.practice).toBe(1);
    const total = Object.values(byKind).reduce((sum, { estimate }) => sum + estimate, 0);
    expect(numbers.estimate).toBe(total);
  });
});

describe('Which faults no finding can tell apart', () => {
  it('measures how far one finding parts two faults', async () => {
    const [closest, ...others] = separations((await smallKnowledge()).network);
    // Host swap: P(same fault | crack) = 1 - 0.99 * 0.1 = 0.901, P(same fault | stage short) = 1, P(| supply) = 0.01.
    // Core rail: P(normal, low, short | crack) = 0.96, 0.03, 0.01; given the stage short 0, 0.099, 0.901: distance 0.96.
    // Crack against supply: host swap parts them by 0.901 - 0.01 = 0.891; nothing does better.
    expect(closest).toMatchObject({ faults: ['core-joint-crack', 'host-supply'], finding: 'host-swap' });
    expect(closest!.separation).toBeCloseTo(0.891, 12);
    expect(others.map(({ faults, finding }) => [...faults, finding])).toEqual([
      ['core-joint-crack', 'core-stage-short', 'resistance-core'],
      ['core-stage-short', 'host-supply', 'host-swap'],
    ]);
    expect(others[0]!.separation).toBeCloseTo(0.96, 12);
  });

  it('lists a pair as inseparable only where every finding is alike', async () => {
    const knowledge = await smallKnowledge();
    expect(reportKnowledge(knowledge).inseparable).toEqual([]);
    expect(reportKnowledge(knowledge, 0.9).inseparable.map(({ faults }) => faults)).toEqual([
      ['core-joint-crack', 'host-supply'],
    ]);
    const alike = { ...knowledge.network, findings: [] };
    expect(reportKnowledge({ ...knowledge, network: alike }).inseparable).toHaveLength(3);
    expect(separations(alike)[0]).toMatchObject({ separation: 0, finding: null });
  });
});

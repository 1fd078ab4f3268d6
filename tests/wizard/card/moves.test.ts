import { describe, expect, it } from 'vitest';
import { movesBetween, movesOutOfSight } from '../../../src/wizard/card/moves.ts';
import { sampleAssessment } from '../sample-assessment.ts';

const [ball, chip] = sampleAssessment.ranking;
const at = (fault: string, chance: number) => ({ ...ball!, fault, name: fault, chance });

describe('What an answer moved', () => {
  it('is said in whole points of the figures on the screen, furthest first, up or down', () => {
    const moves = movesBetween([at('balls', 0.124), at('chip', 0.3)], [at('balls', 0.338), at('chip', 0.251)]);
    expect(moves.map(({ fault, points }) => [fault, points])).toEqual([
      ['balls', 22],
      ['chip', -5],
    ]);
  });

  it('is nothing where the figures on the screen stay', () => {
    expect(movesBetween(sampleAssessment.ranking, sampleAssessment.ranking)).toEqual([]);
    expect(movesBetween([at('balls', 0.1201)], [at('balls', 0.1249)])).toEqual([]);
  });

  it('counts a cause that was not worth naming before as coming from nothing, and one that left as gone', () => {
    expect(movesBetween([chip!], [at('balls', 0.4)]).map(({ was, now }) => [was, now])).toEqual([
      [0, 0.4],
      [chip!.chance, 0],
    ]);
  });

  it('is told of causes out of sight only where it is far', () => {
    const moves = movesBetween(
      [at('balls', 0.5), at('chip', 0.3), at('fan', 0.02)],
      [at('balls', 0.7), at('chip', 0.1), at('fan', 0.04)],
    );
    expect(movesOutOfSight(moves, new Set(['balls'])).map(({ fault }) => fault)).toEqual(['chip']);
  });
});

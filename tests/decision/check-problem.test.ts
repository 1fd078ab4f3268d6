/** A malformed problem is refused with a sentence that says where, what is wrong and what to do. */
import { describe, expect, it } from 'vitest';
import { openPlay } from '../../src/decision/play.ts';
import type { DecisionProblem } from '../../src/decision/problem.ts';
import { evsi } from '../../src/decision/worth.ts';
import { oilWildcatter, T1 } from './published-problems.ts';

const [drill] = oilWildcatter.stops;
const [seismic] = oilWildcatter.tests;
const [r1] = T1.remedies;

const broken: [string, DecisionProblem, RegExp][] = [
  [
    'a prior of the wrong length',
    { ...oilWildcatter, prior: Float64Array.of(1) },
    /prior has 1 entries for 3 conditions/,
  ],
  [
    'a prior that is not normalised',
    { ...oilWildcatter, prior: Float64Array.of(0.5, 0.3, 0.3) },
    /prior adds up to 1\.1.*normalise/,
  ],
  ['a prior with a hole', { ...oilWildcatter, prior: Float64Array.of(Number.NaN, 0.5, 0.5) }, /prior holds NaN/],
  [
    'a payoff for too few conditions',
    { ...oilWildcatter, stops: [{ ...drill!, payoff: Float64Array.of(1) }] },
    /stop "drill" pays 1 conditions of 3/,
  ],
  [
    'a payoff that is no number',
    { ...oilWildcatter, stops: [{ ...drill!, payoff: Float64Array.of(1, Number.NaN, 0) }] },
    /stop "drill" pays something that is not a number/,
  ],
  ['an action given twice', { ...oilWildcatter, stops: [drill!, drill!] }, /"drill" is there twice/],
  [
    'outcomes that leave a chance over',
    {
      ...oilWildcatter,
      tests: [{ ...seismic!, outcomes: ['none', 'open'], likelihood: seismic!.likelihood.slice(0, 2) }],
    },
    /test "seismic" has outcomes that add up to 0\.8.* given "dry"; make them add up to 1/,
  ],
  [
    'a row for no outcome',
    { ...oilWildcatter, tests: [{ ...seismic!, outcomes: ['none'] }] },
    /test "seismic" has 3 rows for 1 outcomes/,
  ],
  ['a negative cost', { ...oilWildcatter, tests: [{ ...seismic!, cost: -1 }] }, /test "seismic" costs -1/],
  [
    'a requirement that is no test',
    { ...oilWildcatter, tests: [{ ...seismic!, requires: [{ test: 'gravity', outcomes: [0] }] }] },
    /requires "gravity", which is no test here/,
  ],
  [
    'a required outcome that does not exist',
    { ...oilWildcatter, tests: [{ ...seismic!, requires: [{ test: 'seismic', outcomes: [3] }] }] },
    /requires an outcome that "seismic" does not have/,
  ],
  [
    'a preparation that does not exist',
    { ...oilWildcatter, stops: [{ ...drill!, preparations: [0] }] },
    /stop "drill" needs preparation number 0/,
  ],
  [
    'a remedy whose chances leave something over',
    {
      ...T1,
      remedies: [{ ...r1!, transitions: r1!.transitions.map((each, c) => (c === 0 ? { ...each, fixed: 0.5 } : each)) }],
    },
    /remedy "r1" takes "1" somewhere with chances that add up to 0\.5/,
  ],
  ['a remedy tried no times', { ...T1, remedies: [{ ...r1!, attempts: 0 }] }, /may be tried 0 times/],
];

describe('a malformed decision problem', () => {
  it.each(broken)('is refused for %s', (_, problem, words) => {
    expect(() => openPlay(problem)).toThrow(words);
  });

  it('is told apart from a question about a test that is not there', () => {
    expect(() => evsi(oilWildcatter, ['gravity'])).toThrow('has no test "gravity"; it has seismic');
  });
});

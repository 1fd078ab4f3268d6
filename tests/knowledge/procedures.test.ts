import { describe, expect, it } from 'vitest';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { sayProblem } from '../../src/knowledge/say-problem.ts';
import { brokenIn, type SmallFile, smallFiles } from './small-knowledge.ts';

// biome-ignore lint/suspicious/noExplicitAny: broken on purpose, in ways no type allows
type Json = any;

async function said(files: ReadonlyMap<string, unknown>): Promise<string> {
  const parsed = await parseKnowledge(files);
  return parsed.ok ? '' : parsed.problems.map(sayProblem).join('\n');
}

const REBALL = 'procedures/reball-core.json';
const BALLS = 'hold-points/balls-in-line.json';
const RAILS = 'hold-points/rails-to-ground.json';
const LIMITED = 'hold-points/rails-limited.json';

describe('The audit of the procedures', () => {
  it('asks for a procedure for every remedy', async () => {
    const files = smallFiles();
    files.delete('procedures/replace-power-stage.json');
    expect(await said(files)).toContain(
      'rules/remedies/replace-power-stage.json: nothing says how "replace-power-stage" is carried out. Add procedures/replace-power-stage.json with its hold points in order.',
    );
  });

  it.each<[string, SmallFile, (content: Json) => void, string]>([
    [
      'a hold point that is not there',
      REBALL,
      (p) => p.holdPoints.unshift('balls-in-lin'),
      'there is no hold point "balls-in-lin". Did you mean "balls-in-line"?',
    ],
    ['the same hold point twice', REBALL, (p) => p.holdPoints.push('image'), '"image" stands in this procedure twice'],
    ['a package that is not there', REBALL, (p) => (p.package = 'cor'), 'there is no package "cor"'],
    ['an alloy of no table', REBALL, (p) => (p.solder = 'SAC999'), 'no alloy is called "SAC999"'],
    [
      'heat that is not accounted for',
      REBALL,
      (p) => delete p.heat,
      'this work heats a package to melting and does not give its heat',
    ],
    [
      'power before resistance',
      REBALL,
      (p) => (p.holdPoints = ['balls-in-line', 'rails-limited', 'rails-to-ground', 'image']),
      '"rails-limited" powers the card before the rails are measured to ground',
    ],
    [
      'an image before the limited supply',
      REBALL,
      (p) => (p.holdPoints = ['balls-in-line', 'rails-to-ground', 'image', 'rails-limited']),
      '"image" powers the card before it was powered from a limited supply',
    ],
    ['a caution that is not there', BALLS, (h) => h.cautions.push('hot-wrk'), 'there is no caution "hot-wrk"'],
    [
      'a finding that is not there',
      RAILS,
      (h) => (h.finds[0].finding = 'resistance-cor'),
      'there is no finding "resistance-cor"',
    ],
    [
      'a state that is not there',
      RAILS,
      (h) => h.finds[0].passes.push('lo'),
      '"lo" is not a state of "resistance-core"',
    ],
    [
      'a short that lets the work go on',
      RAILS,
      (h) => h.finds[0].passes.push('short'),
      'a short of "resistance-core" lets the work go on',
    ],
    [
      'a finding its check does not yield',
      RAILS,
      (h) => (h.finds[0].finding = 'start-up'),
      'the check "rail-resistances" does not yield "start-up"',
    ],
    [
      'a number in the words without a basis',
      BALLS,
      (h) => h.howTo.push('Wait 30 seconds.'),
      '"30" stands in the words without a basis',
    ],
    [
      'a figure the words ask for and nobody gives',
      BALLS,
      (h) => (h.passes = 'Below {limit}.'),
      'the words ask for the figure "limit", and there is none',
    ],
    [
      'a figure that no word uses',
      BALLS,
      (h) => (h.howTo = ['Heat, then count.']),
      'no word uses the figure "preheater"',
    ],
    ['a figure without a basis', BALLS, (h) => delete h.figures.preheater.basis, 'basis'],
    [
      'a way back that does not stand before it',
      LIMITED,
      (h) => (h.ifItFails.to = 'image'),
      'it leads back to "image", which does not stand before it here',
    ],
    [
      'a way back to nowhere',
      LIMITED,
      (h) => delete h.ifItFails.to,
      'leading back and the hold point it leads back to belong together',
    ],
    [
      'power that is not said',
      LIMITED,
      (h) => delete h.power,
      'the check "idle-current" powers the card, and the hold point does not say so',
    ],
  ])('refuses %s', async (_title, file, breakIt, sentence) => {
    expect(await said(brokenIn(file, breakIt))).toContain(sentence);
  });

  it('refuses a procedure of no remedy, and a hold point that no procedure uses', async () => {
    const files = smallFiles();
    files.set('procedures/polish.json', { id: 'polish', holdPoints: ['rails-to-ground'] });
    files.set('hold-points/idle.json', { ...(files.get(RAILS) as object), id: 'idle' });
    const problems = await said(files);
    expect(problems).toContain('rules/procedures/polish.json at id: there is no remedy "polish"');
    expect(problems).toContain('rules/hold-points/idle.json: no procedure uses the hold point "idle"');
  });
});

import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import type { Record } from '../../src/record/schema.ts';
import { type Catalogue, makeCatalogue } from '../../src/wizard/catalogue.ts';
import { answerFact, answerFinding, typeReading } from '../../src/wizard/desk.ts';
import { railsOf } from '../../src/wizard/rails.ts';
import { BENCH_ORDER, placeOfCheck, progressOf, STEPS, type StepId, sectionsOf } from '../../src/wizard/steps.ts';

const AT = '2026-11-24T09:00:00Z';
const empty: Record = { format: 1, id: 'card', title: 'Card', timeline: [{ type: 'arrived', at: AT, facts: {} }] };
let knowledge: Knowledge;
let catalogue: Catalogue;

beforeAll(async () => {
  const [loaded, shop] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!loaded.ok || !shop.ok) throw new Error('the knowledge in rules/ does not parse: run the audit');
  knowledge = loaded.knowledge;
  catalogue = makeCatalogue(knowledge, shop.shop);
});

const keysOf = (step: StepId, record = empty) =>
  sectionsOf(step, catalogue, record).flatMap(({ questions }) => questions.map(({ key }) => key));

describe('the order of the bench', () => {
  it('names every check of the knowledge once, and nothing else', () => {
    expect([...BENCH_ORDER].sort()).toEqual(catalogue.checks.map(({ id }) => id).sort());
  });

  it('puts no power on a card before its resistances are taken', () => {
    const at = (id: string) => BENCH_ORDER.indexOf(id);
    for (const { id } of catalogue.checks.filter(({ powers }) => powers))
      expect(at(id), id).toBeGreaterThan(at('rail-resistances'));
  });
});

describe('the steps', () => {
  it('ask for every fact and every finding of the knowledge at exactly one step of the bench', () => {
    const asked = STEPS.flatMap((id) => keysOf(id));
    expect(new Set(asked).size).toBe(asked.length);
    for (const { id } of catalogue.facts) expect(asked).toContain(`fact-${id}`);
    for (const { id } of catalogue.findings) expect(asked).toContain(`bench-${id}`);
  });

  it('ask the owner only for symptoms', () => {
    const owner = STEPS.flatMap((id) =>
      keysOf(id)
        .filter((key) => key.startsWith('owner-'))
        .map((key) => [id, key]),
    );
    expect(owner.map(([step]) => step)).toEqual(owner.map(() => 'symptoms'));
    expect(owner.map(([, key]) => key)).toContain('owner-start-up');
  });

  it('leave out a rail that the assessment says this class of card does not have, but never one that was measured', async () => {
    const asked = async (record: Record) => {
      const assessment = await assess(knowledge, catalogue.shop, record, { plan: false });
      if (assessment.kind === 'bad-record') throw new Error(assessment.issues[0]?.wrong);
      return sectionsOf('readings', catalogue, record, new Set(assessment.applicable)).flatMap(({ questions }) =>
        questions.map(({ key }) => key),
      );
    };
    const none = answerFact(empty, 'second-core-rail', false, AT);
    const unknown = answerFact(empty, 'second-core-rail', null, AT);
    const measured = typeReading(none, 'resistance-core-second', '0.4', AT);
    expect(await asked(none)).not.toContain('bench-resistance-core-second');
    expect(await asked(unknown)).toContain('bench-resistance-core-second');
    expect(
      sectionsOf('readings', catalogue, measured, new Set()).flatMap((section) => section.questions),
    ).toMatchObject([{ key: 'bench-resistance-core-second' }]);
  });

  it('look for a finding under the check that is done for it, not under one that shows it by the way', () => {
    const home = (finding: string) =>
      (['looks', 'readings', 'tests'] as const)
        .flatMap((step) => sectionsOf(step, catalogue, empty))
        .find(({ questions }) => questions.some(({ key }) => key === `bench-${finding}`))?.check?.id;
    expect(home('start-up')).toBe('boot-test');
    expect(home('host-swap')).toBe('host-swap');
    expect(home('voltage-core')).toBe('rails-on-limited-supply');
  });

  it('count "can\'t tell" as an answer', () => {
    const before = progressOf(sectionsOf('looks', catalogue, empty), empty);
    const record = answerFinding(empty, 'look-board', null, 'bench', AT);
    expect(progressOf(sectionsOf('looks', catalogue, record), record)).toEqual({
      ...before,
      answered: before.answered + 1,
    });
  });

  it('take resistances before voltages, and both before any image', () => {
    const checks = sectionsOf('tests', catalogue, empty).map(({ check }) => check?.id);
    const readings = sectionsOf('readings', catalogue, empty).map(({ check }) => check?.id);
    expect(readings.indexOf('rail-resistances')).toBeLessThan(readings.indexOf('rails-on-limited-supply'));
    expect(checks.indexOf('rails-on-limited-supply')).toBeLessThan(checks.indexOf('boot-test'));
  });

  it('put resistance and voltage of one rail into one row', () => {
    const rails = railsOf(catalogue.findings);
    const core = rails.find(({ id }) => id === 'core');
    expect(core).toMatchObject({ resistance: { id: 'resistance-core' }, voltage: { id: 'voltage-core' } });
    expect(rails[0]?.id).toBe('core');
    expect(rails.flatMap(({ resistance }) => resistance?.id ?? [])).toContain('resistance-12v-input-second');
  });
});

describe('where the result of a check goes', () => {
  const check = (id: string) => catalogue.checks.find((one) => one.id === id)!;

  it('is the first of its questions that is still open', () => {
    expect(placeOfCheck(check('rail-resistances'), catalogue, empty)?.step).toBe('readings');
    const first = placeOfCheck(check('visual-inspection'), catalogue, empty);
    expect(first?.step).toBe('looks');
    const record = answerFinding(empty, first!.key.replace('bench-', ''), null, 'bench', AT);
    expect(placeOfCheck(check('visual-inspection'), catalogue, record)?.key).not.toBe(first?.key);
  });

  it('exists for every check', () => {
    for (const one of catalogue.checks) expect(placeOfCheck(one, catalogue, empty), one.id).not.toBeNull();
  });
});

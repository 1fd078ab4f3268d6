import { describe, expect, it } from 'vitest';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import { reportKnowledge } from '../../src/knowledge/report.ts';
import { sayProblem } from '../../src/knowledge/say-problem.ts';
import { auditShop } from '../../src/shop/audit.ts';

async function real() {
  const loaded = await loadKnowledge();
  if (!loaded.ok) throw new Error(loaded.problems.map(sayProblem).join('\n'));
  return loaded.knowledge;
}

describe('The rules of this project', () => {
  it('pass the audit', async () => {
    const loaded = await loadKnowledge();
    expect(loaded.ok ? [] : loaded.problems.map(sayProblem)).toEqual([]);
  });

  it('name the faults the trade knows, at every site', async () => {
    const { faults } = await real();
    expect(faults.length).toBeGreaterThanOrEqual(49);
    expect(new Set(faults.map(({ site }) => site)).size).toBe(10);
  });

  it('can tell any two faults apart by at least one finding, in one card of ten or more', async () => {
    expect(reportKnowledge(await real()).inseparable).toEqual([]);
  });

  it('are priced by the default shop profile, part by part', async () => {
    const shop = await loadShop();
    if (!shop.ok) throw new Error(shop.problems.map(sayProblem).join('\n'));
    expect(auditShop('shop.json', shop.shop, (await real()).bench).map(sayProblem)).toEqual([]);
  });

  it('offer in the catalogue only parts and equipment that some check or remedy uses', async () => {
    const { bench, checks, remedies } = await real();
    const parts = new Set([...remedies.flatMap((one) => one.parts), ...checks.map(({ bought }) => bought?.part)]);
    expect(bench.parts.filter(({ id }) => !parts.has(id))).toEqual([]);
    const equipment = new Set([...remedies, ...checks].flatMap((one) => one.equipment));
    expect(bench.equipment.filter(({ id }) => !equipment.has(id))).toEqual([]);
  });
});

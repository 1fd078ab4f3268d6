/** The knowledge as somebody else might have estimated it: every probability moved by noise on its log-odds. */
import type { Random } from '../../src/decision/random.ts';
import { compileNetwork } from '../../src/knowledge/compile.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Chance, Fault, Finding, Remedy, Row } from '../../src/knowledge/schema.ts';
import { shiftLogOdds } from '../../src/knowledge/vary.ts';

/**
 * Every probability gets its own normal noise of this standard deviation on its log-odds: shares, figures of the
 * population, every state of every row (rows are scaled back to one), cures, masks, damage. 0 and 1 stay.
 */
export function disturbed(knowledge: Knowledge, random: Random, deviation: number): Knowledge {
  if (deviation === 0) return knowledge;
  const move = (p: number) => shiftLogOdds(p, deviation * normal(random));
  const chance = <C extends Chance>(one: C): C => ({ ...one, p: move(one.p) });
  const row = (one: Row): Row => {
    const moved = Object.entries(one.p).map(([state, p]) => [state, move(p)] as const);
    const total = moved.reduce((sum, [, p]) => sum + p, 0);
    return { ...one, p: Object.fromEntries(moved.map(([state, p]) => [state, p / total])) };
  };
  const each = <V>(items: { readonly [id: string]: V }, change: (value: V) => V) =>
    Object.fromEntries(Object.entries(items).map(([id, value]) => [id, change(value)]));

  const faults = knowledge.faults.map((fault): Fault => ({ ...fault, share: chance(fault.share) }));
  const findings = knowledge.findings.map(
    (finding): Finding => ({ ...finding, leak: row(finding.leak), given: each(finding.given, row) }),
  );
  const remedies = knowledge.remedies.map(
    (remedy): Remedy => ({
      ...remedy,
      effects: each(remedy.effects, ({ cures, masks }) => {
        const cured = chance(cures);
        if (!masks) return { cures: cured };
        return { cures: cured, masks: { ...masks, p: Math.min(move(masks.p), 1 - cured.p) } };
      }),
      induces: each(remedy.induces, chance),
    }),
  );
  const { moreThanOneFault, noFault } = knowledge.population;
  return {
    ...knowledge,
    version: `${knowledge.version}, disturbed by ${deviation}`,
    faults,
    findings,
    remedies,
    checks: knowledge.checks.map((check) => (check.risk ? { ...check, risk: chance(check.risk) } : check)),
    population: {
      ...knowledge.population,
      moreThanOneFault: chance(moreThanOneFault),
      ...(noFault ? { noFault: chance(noFault) } : {}),
    },
    network: compileNetwork(faults, findings),
  };
}

/** Box and Muller 1958. */
function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log1p(-random.next())) * Math.cos(2 * Math.PI * random.next());
}

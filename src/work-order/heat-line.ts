/** The heat a card has had, what this work takes, and what is left. */
import { heatLeft } from '../joints/heat-budget.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Procedure, Remedy } from '../knowledge/schema.ts';
import type { Event } from '../record/schema.ts';
import type { HeatLine } from './schema.ts';

/** Heat cycles that each kind of earlier work has cost at the least. Common practice, no source. */
const AT_LEAST: { readonly [kind: string]: number } = {
  reflow: 1,
  reball: 2,
  'oven-or-heat-gun': 1,
  'kind-unknown': 1,
};

/**
 * Cycles before this work: those the record states of the card as it arrived (or the least that its earlier work has
 * cost, where nobody counted), and those of every treatment in the record before this one. The budget is null where this
 * work melts no package.
 */
export function heatLine(
  knowledge: Pick<Knowledge, 'remedies' | 'procedures' | 'packages' | 'sayings' | 'language'>,
  remedy: Remedy,
  procedure: Procedure,
  earlier: readonly Event[],
  facts: ReadonlyMap<string, unknown>,
): HeatLine | null {
  const { heat } = procedure;
  const kind = knowledge.packages.find(({ id }) => id === procedure.package);
  if (!heat || !kind) return null;
  const stated = facts.get('heat-cycles');
  const hands = String(facts.get('earlier-heat-work') ?? '');
  const known = typeof stated === 'number' || hands === 'none';
  const before = typeof stated === 'number' ? stated : (AT_LEAST[hands] ?? 0);
  let here = 0;
  let places = hands === 'reball' && procedure.package === 'core' ? 1 : 0;
  let beyondBoard = 0;
  for (const event of earlier) {
    if (event.type !== 'treated') continue;
    const done = knowledge.remedies.find(({ id }) => id === event.remedy);
    const how = knowledge.procedures.find(({ id }) => id === event.remedy);
    here += done?.heatCycles ?? 0;
    if (how?.package !== procedure.package || !how?.heat) continue;
    places += how.heat.locationReworks;
    beyondBoard += Math.max(0, how.heat.partPasses - (done?.heatCycles ?? 0));
  }
  const reworkPasses = before + here;
  const spent = {
    factoryPasses: kind.factoryPasses,
    reworkPasses,
    locationReworks: places,
    partPasses: heat.newPart ? 0 : kind.factoryPasses + reworkPasses + beyondBoard,
  };
  const work = { passes: remedy.heatCycles, locationReworks: heat.locationReworks, partPasses: heat.partPasses };
  const takes = {
    'part-passes': work.partPasses,
    'location-reworks': work.locationReworks,
    'board-passes': work.passes,
  };
  const allowances = heatLeft(spent, work).map(({ id, most, spent: used, left, leftAfter, cited }) => {
    const name = say(knowledge, `heat-${id}`);
    return { id, name, most, spent: used, left, takes: takes[id], leftAfter, cited: { ...cited } };
  });
  const beyond = allowances.filter(({ leftAfter }) => leftAfter < 0);
  return {
    known,
    allowances,
    beyond: beyond.length > 0,
    words: [
      say(knowledge, known ? 'heat-spent' : 'heat-spent-or-more', {
        cycles:
          reworkPasses === 1 ? say(knowledge, 'heat-cycle') : say(knowledge, 'heat-cycles', { count: reworkPasses }),
        factory: kind.factoryPasses,
      }),
      ...(heat.newPart ? [say(knowledge, 'heat-new-part')] : []),
      ...(beyond.length > 0
        ? [
            say(knowledge, 'heat-beyond', {
              allowances: beyond
                .map(({ name, leftAfter }) => say(knowledge, 'heat-beyond-by', { allowance: name, count: -leftAfter }))
                .join(', '),
            }),
          ]
        : []),
    ],
  };
}

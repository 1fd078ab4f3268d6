/** The solder that this work melts, and how sure that is. */
import { ALLOYS, ALLOYS_CITED, type Alloy, findAlloy } from '../joints/alloys.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Procedure } from '../knowledge/schema.ts';
import type { Event } from '../record/schema.ts';
import type { SolderLine } from './schema.ts';

/** What boards of today are made with; the alloy of the table that is commonest among them. Common practice, no source. */
const AS_MADE = 'SAC305';
const HANDS_UNKNOWN = ['reball', 'kind-unknown'];

export type Solder =
  | { readonly ok: true; readonly line: SolderLine | null }
  | { readonly ok: false; readonly wrong: string; readonly todo: string };

/**
 * A stated alloy stands; else the one the procedure is done with; else what the joints were last made of: by earlier work
 * in this record, or as made. Unknown hands may have left anything, so that the highest melting of the two is taken and said.
 */
export function solderLine(
  knowledge: Pick<Knowledge, 'procedures' | 'sayings' | 'language'>,
  procedure: Procedure,
  earlier: readonly Event[],
  facts: ReadonlyMap<string, unknown>,
  stated: string | undefined,
): Solder {
  if (procedure.solder === undefined) return { ok: true, line: null };
  if (stated !== undefined) {
    const alloy = findAlloy(stated);
    if (!alloy)
      return {
        ok: false,
        wrong: say(knowledge, 'solder-unknown', { alloy: stated }),
        todo: say(knowledge, 'solder-name-one', { alloys: ALLOYS.map(({ id }) => id).join(', ') }),
      };
    return { ok: true, line: lineOf(alloy, 'stated', say(knowledge, 'solder-stated')) };
  }
  const own = findAlloy(procedure.solder);
  if (own) return { ok: true, line: lineOf(own, 'procedure', say(knowledge, 'solder-procedure')) };
  const before = lastSolderHere(knowledge, procedure, earlier);
  if (before) return { ok: true, line: lineOf(before, 'record', say(knowledge, 'solder-record')) };
  const hands = String(facts.get('earlier-heat-work') ?? '');
  const words = say(knowledge, HANDS_UNKNOWN.includes(hands) ? 'solder-other-hands' : 'solder-as-made');
  return { ok: true, line: lineOf(findAlloy(AS_MADE)!, 'assumed', words) };
}

function lastSolderHere(
  { procedures }: Pick<Knowledge, 'procedures'>,
  procedure: Procedure,
  earlier: readonly Event[],
): Alloy | undefined {
  for (const event of earlier.toReversed()) {
    if (event.type !== 'treated') continue;
    const done = procedures.find(({ id }) => id === event.remedy);
    if (done?.package !== procedure.package || done?.solder === undefined) continue;
    const alloy = findAlloy(event.process?.alloy ?? done.solder);
    if (alloy) return alloy;
  }
  return undefined;
}

function lineOf(alloy: Alloy, from: SolderLine['from'], words: string): SolderLine {
  const { id, solidusCelsius, liquidusCelsius } = alloy;
  return {
    alloy: id,
    solidusCelsius,
    liquidusCelsius,
    class: alloy.class,
    from,
    words: [words],
    cited: { ...ALLOYS_CITED },
  };
}

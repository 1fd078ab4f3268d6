/** The solder that this work melts, and how sure that is. */
import { ALLOYS, ALLOYS_CITED, type Alloy, findAlloy } from '../joints/alloys.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
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
  knowledge: Pick<Knowledge, 'procedures'>,
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
        wrong: `No alloy is called "${stated}".`,
        todo: `Name one of ${ALLOYS.map(({ id }) => id).join(', ')}.`,
      };
    return { ok: true, line: lineOf(alloy, 'stated', ['As stated for this work.']) };
  }
  const own = findAlloy(procedure.solder);
  if (own) return { ok: true, line: lineOf(own, 'procedure', ['What this work is done with.']) };
  const before = lastSolderHere(knowledge, procedure, earlier);
  if (before)
    return { ok: true, line: lineOf(before, 'record', ['What the joints were last made of, by the record.']) };
  const hands = String(facts.get('earlier-heat-work') ?? '');
  const words = HANDS_UNKNOWN.includes(hands)
    ? [
        'Somebody has soldered here before: the joints may be leaded, or a mix that melts where no table says. Taken as lead-free, which melts last; watch the solder and not the clock.',
      ]
    : ['Lead-free as made is assumed (common practice, no source). A very old board may be leaded and melts earlier.'];
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

function lineOf(alloy: Alloy, from: SolderLine['from'], words: readonly string[]): SolderLine {
  const { id, solidusCelsius, liquidusCelsius } = alloy;
  return {
    alloy: id,
    solidusCelsius,
    liquidusCelsius,
    class: alloy.class,
    from,
    words: [...words],
    cited: { ...ALLOYS_CITED },
  };
}

/** `melts at 183 °C`, or the range of an alloy that has one. */
export function sayMelting({ solidusCelsius, liquidusCelsius }: SolderLine): string {
  return solidusCelsius === liquidusCelsius
    ? `melts at ${liquidusCelsius} °C`
    : `begins to melt at ${solidusCelsius} °C, liquid from ${liquidusCelsius} °C`;
}

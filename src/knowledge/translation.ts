/**
 * The knowledge in another language: the same ids and numbers under other words. What can be said otherwise is listed once, in
 * `mapTexts`; a translation is laid over it, and whoever audits one compares it with the same list.
 */
import type { Knowledge } from './knowledge.ts';
import type { Basis } from './schema.ts';

/**
 * Folders and files of the knowledge whose texts are shown, each a file of a translation. Of procedures only the notes are words; they
 * recur from one to the next and are found as sentences are.
 */
export const TRANSLATED = [
  'faults',
  'findings',
  'preparations',
  'checks',
  'remedies',
  'hold-points',
  'packages',
  'stops',
  'windows',
  'cautions',
  'facts',
  'equipment',
  'parts',
] as const;
export type TranslatedKind = (typeof TRANSLATED)[number];

/** Where translations lie, a folder for each language. */
export const LANGUAGES_FOLDER = 'languages/';

/** Reasons recur in many files and have no id of their own: they are found by what they say in English. */
export const SENTENCES = 'sentences';
/** Sentences that assessments make, by id, with slots: see `sayings.ts`. */
export const SAID = 'sayings';

export interface Translation {
  /** BCP 47 */
  readonly language: string;
  /** kind -> id -> place in it, such as `states.open.name` or `howTo.0` -> text */
  readonly texts: { readonly [kind: string]: { readonly [id: string]: { readonly [place: string]: string } } };
  /** English sentence -> the same in this language */
  readonly sentences: { readonly [english: string]: string };
  /** id of a sentence that assessments make -> it in this language, with the same slots */
  readonly sayings: { readonly [id: string]: string };
}

type Say = (kind: TranslatedKind, id: string, place: string, text: string) => string;
type SaySentence = (text: string) => string;

/** The knowledge with every text that is shown passed through `say`, and every reason through `sentence`. */
export function mapTexts(knowledge: Knowledge, say: Say, sentence: SaySentence): Knowledge {
  const on = (kind: TranslatedKind, id: string) => ({
    one: (place: string, text: string) => say(kind, id, place, text),
    maybe: <Key extends string>(place: Key, text: string | undefined) =>
      text === undefined ? {} : ({ [place]: say(kind, id, place, text) } as { readonly [place in Key]: string }),
    list: (place: string, texts: readonly string[]) => texts.map((text, at) => say(kind, id, `${place}.${at}`, text)),
  });
  const because = <Part extends { readonly because: string }>(part: Part): Part => ({
    ...part,
    because: sentence(part.because),
  });
  const named = <Item extends { readonly id: string; readonly name: string }>(kind: TranslatedKind) => {
    return (item: Item): Item => ({ ...item, name: say(kind, item.id, 'name', item.name) });
  };
  return {
    ...knowledge,
    faults: knowledge.faults.map((fault) => {
      const { one } = on('faults', fault.id);
      return {
        ...fault,
        name: one('name', fault.name),
        owner: one('owner', fault.owner),
        about: one('about', fault.about),
        ...(fault.noRemedy === undefined ? {} : { noRemedy: one('noRemedy', fault.noRemedy) }),
      };
    }),
    findings: knowledge.findings.map((finding) => {
      const { one, maybe } = on('findings', finding.id);
      return {
        ...finding,
        name: one('name', finding.name),
        question: one('question', finding.question),
        ...maybe('owner', finding.owner),
        states: finding.states.map((state) => ({
          ...state,
          name: one(`states.${state.id}.name`, state.name),
          owner: one(`states.${state.id}.owner`, state.owner),
        })),
      };
    }),
    preparations: knowledge.preparations.map(named('preparations')),
    checks: knowledge.checks.map((check) => {
      const { one, maybe, list } = on('checks', check.id);
      return {
        ...check,
        name: one('name', check.name),
        purpose: one('purpose', check.purpose),
        ...maybe('owner', check.owner),
        requires: check.requires.map(because),
        howTo: list('howTo', check.howTo),
      };
    }),
    remedies: knowledge.remedies.map((remedy) => {
      const { one, list } = on('remedies', remedy.id);
      return {
        ...remedy,
        name: one('name', remedy.name),
        owner: one('owner', remedy.owner),
        ...(remedy.after === undefined ? {} : { after: remedy.after.map(because) }),
        howTo: list('howTo', remedy.howTo),
      };
    }),
    procedures: knowledge.procedures.map((procedure) =>
      procedure.notes === undefined
        ? procedure
        : { ...procedure, notes: procedure.notes.map((note) => ({ ...note, text: sentence(note.text) })) },
    ),
    holdPoints: knowledge.holdPoints.map((point) => {
      const { one, maybe, list } = on('hold-points', point.id);
      const { why, figures } = point;
      return {
        ...point,
        name: one('name', point.name),
        howTo: list('howTo', point.howTo),
        passes: one('passes', point.passes),
        record: list('record', point.record),
        recordAs: point.recordAs ?? point.record,
        ifItFails: { ...point.ifItFails, say: one('ifItFails', point.ifItFails.say) },
        ...(why === undefined ? {} : { why: { ...why, text: one('why', why.text) } }),
        ...(figures === undefined
          ? {}
          : {
              figures: Object.fromEntries(
                Object.entries(figures).map(([figure, its]) => [
                  figure,
                  {
                    ...reasoned(its, (because) => one(`figures.${figure}.because`, because)),
                    unit: one(`figures.${figure}.unit`, its.unit),
                  },
                ]),
              ),
            }),
        ...maybe('mayBeLeftOut', point.mayBeLeftOut),
      };
    }),
    packages: knowledge.packages.map((kind) => {
      const { one } = on('packages', kind.id);
      return { ...reasoned(kind, (because) => one('because', because)), name: one('name', kind.name) };
    }),
    stops: knowledge.stops.map((stop) => {
      const { one } = on('stops', stop.id);
      return {
        ...stop,
        name: one('name', stop.name),
        owner: one('owner', stop.owner),
        ...(stop.after === undefined ? {} : { after: stop.after.map(because) }),
      };
    }),
    windows: knowledge.windows.map(named('windows')),
    cautions: knowledge.cautions.map((caution) => {
      const { one, maybe } = on('cautions', caution.id);
      return { ...caution, text: one('text', caution.text), ...maybe('owner', caution.owner) };
    }),
    facts: knowledge.facts.map((fact) => {
      const { one, maybe } = on('facts', fact.id);
      const { type } = fact;
      const values = (list: readonly { readonly id: string; readonly name: string }[]) =>
        list.map((value) => ({ ...value, name: one(`values.${value.id}`, value.name) }));
      return {
        ...fact,
        name: one('name', fact.name),
        question: one('question', fact.question),
        ...maybe('about', fact.about),
        type: 'values' in type ? { ...type, values: values(type.values) } : type,
      };
    }),
    bench: {
      ...knowledge.bench,
      equipment: knowledge.bench.equipment.map(named('equipment')),
      parts: knowledge.bench.parts.map(named('parts')),
    },
    rules: {
      ...knowledge.rules,
      gates: knowledge.rules.gates.map((rule) => {
        // why work risks more on this card is said to the bench, why something is closed to bench and owner
        if (rule.event.type === 'damage') return { ...rule, about: sentence(rule.about) };
        if (rule.event.type !== 'close') return rule;
        const { params } = rule.event;
        const owner = params.owner === undefined ? {} : { owner: sentence(params.owner) };
        return { ...rule, event: { ...rule.event, params: { ...params, reason: sentence(params.reason), ...owner } } };
      }),
    },
  };
}

/** An estimate may say why it is what it is; a source speaks for itself. */
function reasoned<Part extends Basis>(part: Part, say: (because: string) => string): Part {
  return part.basis === 'estimate' && part.because !== undefined ? { ...part, because: say(part.because) } : part;
}

/** Texts that the translation lacks stay as they are. */
export function translate(knowledge: Knowledge, { language, texts, sentences, sayings }: Translation): Knowledge {
  const spoken = mapTexts(
    knowledge,
    (kind, id, place, text) => texts[kind]?.[id]?.[place] ?? text,
    (text) => sentences[text] ?? text,
  );
  return { ...spoken, language, sayings };
}

/** Everything there is to translate: `kind/id/place` -> text, and the sentences. */
export function textsOf(knowledge: Knowledge): {
  readonly texts: ReadonlyMap<string, string>;
  readonly sentences: ReadonlySet<string>;
} {
  const texts = new Map<string, string>();
  const sentences = new Set<string>();
  mapTexts(
    knowledge,
    (kind, id, place, text) => {
      texts.set(`${kind}/${id}/${place}`, text);
      return text;
    },
    (text) => {
      sentences.add(text);
      return text;
    },
  );
  return { texts, sentences };
}

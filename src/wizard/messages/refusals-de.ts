import { type Refusals, sayExamples } from '../../evidence/refusals.ts';

/** Was an einer Akte oder einem Messwert nicht stimmt, auf Deutsch. */
const UNITS = {
  resistance: 'Ohm',
  voltage: 'Volt',
  current: 'Ampere',
  temperature: 'Grad Celsius',
  percent: 'Prozent',
  ratio: 'eine reine Verhältniszahl',
  length: 'Millimeter',
  volume: 'Kubikmillimeter',
  swing: 'Kelvin',
  minutes: 'Minuten',
  count: 'eine reine Zahl',
  energy: 'Elektronvolt',
} as const;
type Quantity = keyof typeof UNITS;

/** Was die Akte da hat, und was dort stehen soll: im Englischen feste Wendungen. */
const KINDS: Readonly<Record<string, string>> = {
  text: 'Text',
  'a number': 'eine Zahl',
  'a whole number': 'eine ganze Zahl',
  'true or false': 'true oder false',
  'a list': 'eine Liste',
  'an object': 'ein Objekt',
  'an object with fields': 'ein Objekt mit Feldern',
  missing: 'nicht vorhanden',
};
const kindOf = (kind: string): string => KINDS[kind] ?? kind;

const NOUNS: Readonly<Record<string, string>> = {
  remedy: 'keine Arbeit',
  part: 'kein Teil',
  package: 'kein Gehäuse',
  fact: 'keine Angabe',
  finding: 'kein Befund',
  state: 'kein Zustand',
  'hold point': 'kein Haltepunkt',
};
const unknown = ({ id, kind, of }: { id: string; kind: string; of: string }): string =>
  `„${id}“ ist ${NOUNS[kind] ?? `kein ${kind}`}${of === '' ? '' : ` (${quoted(of)})`}, wie es hier bekannt ist.`;
const quoted = (text: string): string => text.replace(/^"(.*)"$/, '„$1“');

const number = (value: number): string => new Intl.NumberFormat('de', { maximumFractionDigits: 10 }).format(value);
const NULL = '„Nicht zu sagen“ ist null.';
const noAnswer = ({ typed, name }: { typed: string; name: string }): string =>
  `${typed} ist keine Antwort auf „${name}“.`;
const typeIt = ({ quantity }: { quantity: Quantity }): string => `So eintippen: ${sayExamples(quantity, 'oder')}.`;

export const refusalsDe: Refusals = {
  'not-a-record': ({ is }) => ({
    wrong: `Eine Akte ist ein Objekt mit Feldern, nicht: ${kindOf(is)}.`,
    todo: 'Die ganze Akte angeben, von { bis }.',
  }),
  'no-format': ({ format }) => ({
    wrong: 'Die Akte sagt nicht, in welchem Format sie ist.',
    todo: `"format": ${format} ergänzen.`,
  }),
  'newer-format': ({ format, reads }) => ({
    wrong: `Die Akte ist im Format ${format}; diese Fassung liest bis ${reads}.`,
    todo: 'Mit der neueren Fassung öffnen, die sie geschrieben hat.',
  }),
  'never-a-format': ({ format, reads }) => ({
    wrong: `Ein Format ${format} gab es nie.`,
    todo: `"format" auf ${reads} setzen.`,
  }),
  missing: ({ field, kind }) => ({ wrong: `„${field}“ fehlt.`, todo: `Ergänzen: ${kindOf(kind)}.` }),
  'other-type': ({ field, is, kind }) => ({
    wrong: `„${field}“ ist: ${kindOf(is)}.`,
    todo: `Dort gehört hin: ${kindOf(kind)}.`,
  }),
  'stray-field': ({ field }) => ({
    wrong: `„${field}“ ist kein Feld, das hierher gehört.`,
    todo: 'Die Schreibung berichtigen oder es herausnehmen.',
  }),
  'other-value': ({ field, is, values }) => ({
    wrong: `„${field}“ ist: ${kindOf(is)}.`,
    todo: `Eines davon angeben: ${values}.`,
  }),
  empty: ({ field }) => ({ wrong: `„${field}“ ist leer.`, todo: 'Etwas eintippen.' }),
  'too-small': ({ field, least }) => ({ wrong: `„${field}“ ist zu klein.`, todo: `Mindestens ${least} angeben.` }),
  'too-large': ({ field, most }) => ({ wrong: `„${field}“ ist zu groß.`, todo: `Höchstens ${most} angeben.` }),
  'no-time': ({ field }) => ({
    wrong: `„${field}“ ist kein Datum mit Uhrzeit und Zone.`,
    todo: 'Als 2025-03-01T09:30:00+01:00 schreiben, oder mit Z am Ende.',
  }),
  'no-day': ({ field }) => ({
    wrong: `„${field}“ ist kein Tag.`,
    todo: 'Als Jahr-Monat-Tag schreiben, etwa 2025-03-01.',
  }),
  'not-above': ({ field, least }) => ({ wrong: `„${field}“ ist zu klein.`, todo: `Mehr als ${least} angeben.` }),
  'not-below': ({ field, most }) => ({ wrong: `„${field}“ ist zu groß.`, todo: `Weniger als ${most} angeben.` }),
  'no-id-there': ({ field, is }) => ({
    wrong: `„${field}“ ist ${kindOf(is)}, und das ist keine Kennung.`,
    todo: 'Als klein geschriebene Wörter mit Bindestrichen schreiben.',
  }),
  'no-id': ({ field }) => ({
    wrong: `„${field}“ ist keine Kennung.`,
    todo: 'Als klein geschriebene Wörter mit Bindestrichen schreiben.',
  }),
  'no-event-type': ({ kinds }) => ({
    wrong: 'Ein Ereignis der Akte sagt nicht, welcher Art es ist.',
    todo: `"type" auf eines davon setzen: ${kinds}.`,
  }),
  'no-amount': ({ field }) => ({
    wrong: `„${field}“ passt nicht.`,
    todo: 'Einen Betrag angeben, oder seine Spanne als low, likely und high.',
  }),
  'does-not-fit': ({ field, message }) => ({ wrong: `„${field}“ passt nicht (${message}).`, todo: 'Berichtigen.' }),

  'work-backwards': ({ at, before }) => ({
    wrong: `${at} liegt vor ${before}, dem Haltepunkt darüber: Die Arbeit läuft rückwärts.`,
    todo: 'Haltepunkte in die Reihenfolge bringen, in der sie festgehalten wurden, oder die Zeit berichtigen.',
  }),
  'step-unrecorded': ({ step }) => ({
    wrong: `Keine Arbeit vor diesem Befund hat den Haltepunkt „${step}“ festgehalten.`,
    todo: '"step" weglassen, oder den Haltepunkt im Verlauf der Arbeit festhalten.',
  }),
  'never-treated': () => ({
    wrong: 'Die Karte kam hier zurück, aber vorher ist keine Arbeit an ihr festgehalten.',
    todo: 'Zuerst festhalten, was getan wurde (ein Ereignis "treated"); eine Karte, an der hier nie gearbeitet wurde, beginnt mit "arrived".',
  }),
  'worked-longer-already': ({ days, heard }) => ({
    wrong: `Sie lief ${days} Tage, weniger als die ${heard} Tage, nach denen sie laut Akte noch lief.`,
    todo: 'Die Tage oder das Datum dieses Wortes berichtigen, oder null, wo niemand weiß, wie lange sie lief.',
  }),
  'timeline-backwards': ({ at, before }) => ({
    wrong: `${at} liegt vor ${before}, dem Ereignis darüber: Die Akte läuft rückwärts.`,
    todo: 'Ereignisse in die Reihenfolge bringen, in der sie geschahen, oder das Datum berichtigen.',
  }),
  'no-yes-or-no': (about) => ({ wrong: noAnswer(about), todo: `Mit true oder false antworten. ${NULL}` }),
  'no-number': (about) => ({
    wrong: noAnswer(about),
    todo: `${about.kind === 'a whole number' ? 'Eine ganze Zahl' : 'Eine Zahl'} von ${number(about.least)} bis ${number(about.most)} angeben${about.unit === '' ? '' : ` (${about.unit})`}. ${NULL}`,
  }),
  'no-choice': (about) => ({ wrong: noAnswer(about), todo: `Eines davon wählen: ${about.values}. ${NULL}` }),
  'no-list': (about) => ({ wrong: noAnswer(about), todo: `Eine Liste aus diesen angeben: ${about.values}. ${NULL}` }),
  'no-weight': ({ name }) => ({
    wrong: `Kein Zustand von „${name}“ hat ein Gewicht: Etwas wurde gesehen, also muss einer möglich sein.`,
    todo: 'Möglichen Zuständen ein Gewicht über 0 geben, oder die Gewichte weglassen und den Zustand für „nicht zu sagen“ auf null setzen.',
  }),
  'unknown-of-few': (about) => ({ wrong: unknown(about), todo: `Eines davon wählen: ${about.ids}.` }),
  'unknown-of-many': (about) => ({ wrong: unknown(about), todo: `Am nächsten kommen ${about.ids}.` }),

  'not-read': ({ name, states }) => ({
    wrong: `„${name}“ wird nicht als Zahl abgelesen.`,
    todo: `Einen seiner Zustände wählen: ${states}.`,
  }),
  'nothing-typed': (about) => ({ wrong: 'Hier ist nichts eingetippt.', todo: typeIt(about) }),
  'over-range-here': (about) => ({
    wrong: `Ein Überlauf (OL) sagt nichts, wo ${UNITS[about.quantity]} verlangt ist.`,
    todo: typeIt(about),
  }),
  'zero-or-over-range': () => ({
    wrong: '„0L“ mit einer Null kann null Milliohm heißen oder ein vertipptes OL, und das sind Gegensätze.',
    todo: 'OL (Buchstabe O) für Überlauf eintippen, oder 0 für einen vollen Kurzschluss.',
  }),
  'not-a-number': (about) => ({ wrong: `„${about.text}“ ist keine Zahl.`, todo: typeIt(about) }),
  'space-inside': ({ text }) => ({
    wrong: `„${text}“ enthält ein Leerzeichen mitten in der Zahl.`,
    todo: 'Tausenderpunkte weglassen: 12k oder 12000.',
  }),
  separators: ({ digits }) => ({
    wrong: `„${digits}“ enthält mehr als ein Trennzeichen.`,
    todo: 'Tausenderpunkte weglassen: 12k oder 12000.',
  }),
  'thousand-or-decimal': ({ digits, decimal, thousand }) => ({
    wrong: `„${digits}“ kann ${decimal} oder ${thousand} heißen.`,
    todo: `${decimal} oder ${thousand} eintippen.`,
  }),
  'unknown-unit': (about) => ({
    wrong: `„${about.suffix}“ ist keine Einheit und kein Vorsatz, die hier bekannt sind.`,
    todo: typeIt(about),
  }),
  'other-unit': ({ suffix, other, quantity }) => ({
    wrong: `„${suffix}“ ist ${UNITS[other]}, dieser Messwert ist aber in ${UNITS[quantity]}.`,
    todo: `So eintippen: ${sayExamples(quantity, 'oder')}, oder dorthin schreiben, wo Messwerte in ${UNITS[other]} hingehören.`,
  }),
  'not-finite': (about) => ({ wrong: `„${about.typed}“ ist keine endliche Zahl.`, todo: typeIt(about) }),
  negative: ({ typed }) => ({
    wrong: `${typed} ist negativ: Kein Messwert kann hier unter null liegen.`,
    todo: 'Das Messgerät nullen oder die Spitzen tauschen, und neu messen.',
  }),
  beyond: ({ typed, value, least, most, quantity }) => ({
    wrong: `${typed} sind ${number(value)} ${UNITS[quantity]}, mehr oder weniger, als eine Karte je zeigt (${number(least)} bis ${number(most)}).`,
    todo: 'Den Vorsatz (m ist Milli, M ist Mega) und die Einheit prüfen; OL für Überlauf eintippen.',
  }),
  'leads-broken': () => ({
    wrong: 'Die zusammengehaltenen Leitungen zeigen Überlauf: Eine Leitung ist gebrochen.',
    todo: 'Die Leitungen wechseln, die Spitzen zusammenhalten und eintippen, was das Messgerät zeigt.',
  }),
  'no-reference': ({ typed }) => ({
    wrong: `Eine gesunde Platine, die ${typed} misst, gibt keinen Vergleich her.`,
    todo: 'Denselben Punkt an der gesunden Platine neu messen, oder ihren Messwert weglassen.',
  }),
  'leads-exceed': ({ typed, left }) => ({
    wrong: `${typed} abzüglich der Leitungen sind ${left}: Die Leitungen messen mehr als der Messwert.`,
    todo: 'Die Spitzen zusammenhalten, als Leitungen eintippen, was das Messgerät zeigt (0, wenn es genullt war), und neu messen.',
  }),
};

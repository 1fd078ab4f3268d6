/** Was am Profil der Werkstatt nicht stimmt, auf Deutsch. */
import type { Sayings } from '../../knowledge/schema-sayings.ts';

/** Was da steht und was hingehört: im Englischen feste Wendungen. */
const KINDS: Readonly<Record<string, string>> = {
  'a text': 'ein Text',
  'a number': 'eine Zahl',
  'a whole number': 'eine ganze Zahl',
  'true or false': 'true oder false',
  'an object {...}': 'ein Objekt {...}',
  'a list [...]': 'eine Liste [...]',
  'nothing (null)': 'nichts (null)',
  'something else': 'etwas anderes',
  'a currency of three capital letters': 'eine Währung aus drei Großbuchstaben',
  'a date': 'ein Datum',
  'a date with time and offset': 'ein Datum mit Uhrzeit und Zeitzone',
  'at most': 'höchstens',
  'at least': 'mindestens',
  'more than': 'mehr als',
};

/** `a number or an object {...}`: each of them by itself. */
const kindOf = (kind: string): string =>
  KINDS[kind] ??
  kind
    .split(' or ')
    .map((one) => KINDS[one] ?? one)
    .join(' oder ');

const SCHEMA = 'das Schema in rules/schemas';

export const shopProblemsDe: Sayings = {
  'unknown-key': ({ key }) => ({
    wrong: `„${key}“ liest hier niemand.`,
    todo: `Die Schreibweise berichtigen oder es herausnehmen; ${SCHEMA} nennt, was hierher gehört.`,
  }),
  'missing-field': ({ key }) => ({ wrong: `„${key}“ fehlt.`, todo: `Ergänzen; ${SCHEMA} sagt, wie.` }),
  'wrong-type': ({ value, is, expected }) => ({
    wrong: `${value} ist ${kindOf(is)}, hierher gehört ${kindOf(expected)}.`,
    todo: `Hinschreiben, was hierher gehört: ${kindOf(expected)}.`,
  }),
  'bad-id': ({ value }) => ({
    wrong: `${value} ist keine Kennung.`,
    todo: 'Kennungen sind kleingeschriebene Wörter mit Bindestrichen, etwa core-joint-crack.',
  }),
  'bad-form': ({ value, form, example }) => ({
    wrong: `${value} passt nicht: Hierher gehört ${kindOf(form)}.`,
    todo: example === '' ? 'So hinschreiben.' : `So hinschreiben: ${example}.`,
  }),
  'empty-text': () => ({ wrong: 'Der Text ist leer.', todo: 'Ihn hinschreiben.' }),
  'too-short': ({ entries, least }) => ({
    wrong: `Die Liste hat ${entries} Einträge und braucht mindestens ${least}.`,
    todo: 'Ergänzen, was fehlt.',
  }),
  'more-than-certain': ({ value }) => ({
    wrong: `${value} ist mehr als 1.`,
    todo: 'Eine Wahrscheinlichkeit liegt zwischen 0 und 1.',
  }),
  'less-than-never': ({ value }) => ({
    wrong: `${value} ist weniger als 0.`,
    todo: 'Eine Wahrscheinlichkeit liegt zwischen 0 und 1.',
  }),
  'out-of-range': ({ value, relation, limit }) => ({
    wrong: `${value} liegt außerhalb des Erlaubten.`,
    todo: `Erlaubt ist ${kindOf(relation)} ${limit}.`,
  }),
  'not-a-choice': ({ value, choices }) => ({
    wrong: `${value} steht hier nicht zur Wahl.`,
    todo: choices === '' ? `Was passt, sagt ${SCHEMA}.` : `Eines davon nehmen: ${choices}.`,
  }),
  'no-json': ({ line, column, at }) => ({
    wrong: `Ab Zeile ${line}, Spalte ${column} ist das kein JSON mehr, ${at === '' ? 'wo die Datei endet' : `bei ${at}`}.`,
    todo: 'Dort und kurz davor nach einem fehlenden Komma, einer Klammer oder einem Anführungszeichen sehen, oder nach einem Komma zu viel.',
  }),
  'stands-twice': ({ key, line, column }) => ({
    wrong: `„${key}“ steht zweimal in einem Objekt, das zweite Mal in Zeile ${line}, Spalte ${column}.`,
    todo: 'Nur das letzte würde gelesen: eines davon behalten.',
  }),
  'not-utf-8': () => ({
    wrong: 'Das ist kein Text in UTF-8.',
    todo: 'Die Datei noch einmal mit der Kodierung UTF-8 speichern.',
  }),
};

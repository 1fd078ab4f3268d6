/** Was an der Datei eines Loggers nicht stimmt, auf Deutsch. */
import type { LogProblemsSaid } from './log-problems-en.ts';

const EXPORT_TEXT =
  'Als Text (CSV) ausgeben: je Messung eine Zeile, zuerst die Zeit, je Thermoelement eine Spalte, getrennt durch Kommas, Semikolons oder Tabulatoren.';

export const logProblemsDe: LogProblemsSaid = {
  'no-time-cell': ({ text }) => ({
    wrong: `„${text}“ ist keine Zeit.`,
    todo: 'Die Zeile bleibt weg. Die Zeit so schreiben wie in den anderen Zeilen.',
  }),
  'time-goes-back': ({ from, to }) => ({
    wrong: `Die Zeit springt von ${from} zurück auf ${to}.`,
    todo: 'Die Zeile bleibt weg. Stehen zwei Läufe hintereinander in der Datei, einen nach dem anderen beurteilen.',
  }),
  'no-time-column': () => ({
    wrong: 'Keine Spalte enthält die Zeit.',
    todo: 'Die Zeit mit den Messwerten ausgeben.',
  }),
  'unit-unknown': ({ channel }) => ({
    wrong: `Ob „${channel}“ in Celsius oder Fahrenheit steht, ist nicht gesagt, und die ersten Messwerte verraten es nicht.`,
    todo: 'Die Einheit in die Kopfzeile schreiben, etwa „TC1 (C)“.',
  }),
  'no-such-channel': ({ channel, channels }) => ({
    wrong: `Einen Kanal „${channel}“ gibt es nicht.`,
    todo: `Vorhandene Kanäle: ${channels}.`,
  }),
  'no-temperatures': () => ({
    wrong: 'Keine Spalte enthält Temperaturen.',
    todo: 'Zeit und mindestens einen Kanal eines Thermoelements ausgeben.',
  }),
  empty: () => ({ wrong: 'Die Datei ist leer.', todo: EXPORT_TEXT }),
  'no-readings': ({ first }) => ({
    wrong: `Keine Zeile enthält Messwerte: Die erste lautet „${first}“.`,
    todo: EXPORT_TEXT,
  }),
  'comma-twice': ({ columns, cells }) => ({
    wrong: `Die Kopfzeile nennt ${columns} Spalten, die Zeilen haben ${cells}: Das Komma scheint zu trennen und zugleich Dezimalzeichen zu sein.`,
    todo: 'Mit Semikolons oder Tabulatoren ausgeben, oder mit Dezimalpunkt.',
  }),
  'few-lines-read': ({ lines, read }) => ({
    wrong: `Von ${lines} Zeilen unter der Kopfzeile ließen sich nur ${read} lesen.`,
    todo: 'Die genannten Zeilen ansehen; vielleicht enthält die Datei zwei Tabellen, oder die Zeit steht in unbekannter Form.',
  }),
  'too-many-cells': ({ cells, columns }) => ({
    wrong: `Die Zeile hat ${cells} Felder, die anderen haben ${columns}.`,
    todo: 'Die Zeile bleibt weg: Welches davon der Messwert ist, lässt sich nicht sagen. Vielleicht sind zwei Zeilen ineinandergelaufen.',
  }),
  'no-temperature': ({ text, channel }) => ({
    wrong: `„${text}“ in „${channel}“ ist keine Temperatur.`,
    todo: 'Das zählt als Lücke. Eine Zahl schreiben, oder das Feld leer lassen.',
  }),
};

/** What is wrong with a logger's file, as the wizard says it: where the file is chosen by hand there are no flags to state things by. */
const EXPORT_TEXT =
  'Export text (CSV): a line per reading, time first, a column per thermocouple, separated by commas, semicolons or tabs.';

export const logProblemsEn = {
  'no-time-cell': ({ text }: { text: string }) => ({
    wrong: `"${text}" is no time.`,
    todo: 'The line is left out. Write the time as the other lines do.',
  }),
  'time-goes-back': ({ from, to }: { from: string; to: string }) => ({
    wrong: `The time goes back from ${from} to ${to}.`,
    todo: 'The line is left out. If the file holds two runs one after the other, judge them one by one.',
  }),
  'no-time-column': (_: object) => ({ wrong: 'No column holds the time.', todo: 'Export the time with the readings.' }),
  'unit-unknown': ({ channel }: { channel: string }) => ({
    wrong: `Whether "${channel}" is in Celsius or Fahrenheit is not said, and its first readings do not tell.`,
    todo: 'Write the unit into the header, such as "TC1 (C)".',
  }),
  'no-such-channel': ({ channel, channels }: { channel: string; channels: string }) => ({
    wrong: `There is no channel "${channel}".`,
    todo: `Channels here: ${channels}.`,
  }),
  'no-temperatures': (_: object) => ({
    wrong: 'No column holds temperatures.',
    todo: 'Export time and at least one thermocouple channel.',
  }),
  empty: (_: object) => ({ wrong: 'The file is empty.', todo: EXPORT_TEXT }),
  'no-readings': ({ first }: { first: string }) => ({
    wrong: `No line is a row of readings: the first is "${first}".`,
    todo: EXPORT_TEXT,
  }),
  'comma-twice': ({ columns, cells }: { columns: number; cells: number }) => ({
    wrong: `The header names ${columns} columns, the rows have ${cells}: the comma seems to separate and to be the decimal mark as well.`,
    todo: 'Export with semicolons or tabs, or with a decimal point.',
  }),
  'few-lines-read': ({ lines, read }: { lines: number; read: number }) => ({
    wrong: `Of ${lines} lines below the header only ${read} could be read.`,
    todo: 'Look at the lines named here; the file may hold two tables, or a form of time that is not known.',
  }),
  'too-many-cells': ({ cells, columns }: { cells: number; columns: number }) => ({
    wrong: `The line has ${cells} cells where the others have ${columns}.`,
    todo: 'The line is left out: which of them is the reading cannot be told. See whether two lines ran into each other.',
  }),
  'no-temperature': ({ text, channel }: { text: string; channel: string }) => ({
    wrong: `"${text}" in "${channel}" is no temperature.`,
    todo: 'It counts as a gap. Write a number, or leave the cell empty.',
  }),
};

export type LogProblemsSaid = typeof logProblemsEn;

/**
 * What is wrong with a logger's file and what to do, in English. Each problem also says by which of these it speaks, and of what, so that
 * whoever shows it may say it in another language.
 */

type About = { readonly [slot: string]: string | number };

interface Sentences {
  readonly wrong: string;
  readonly todo: string;
}

export interface LogProblemTold {
  readonly id: LogProblemId;
  readonly about: About;
}

export interface LogProblem extends Sentences {
  readonly told: LogProblemTold;
}

export const LOG_PROBLEMS = {
  'no-time-cell': ({ text }: { text: string }) => ({
    wrong: `"${text}" is no time`,
    todo: 'The line is left out. Write the time as the other lines do.',
  }),
  'time-goes-back': ({ from, to }: { from: string; to: string }) => ({
    wrong: `the time goes back from ${from} to ${to}`,
    todo: 'The line is left out. If the file holds two runs one after the other, judge them one by one.',
  }),
  'no-time-column': (_: object) => ({
    wrong: 'no column holds the time',
    todo: 'Export the time with the readings, or state how many seconds lie from row to row (--every).',
  }),
  'unit-unknown': ({ channel }: { channel: string }) => ({
    wrong: `whether "${channel}" is in Celsius or Fahrenheit is not said, and its first readings do not tell`,
    todo: 'State the unit (--unit C or --unit F), or write it into the header, such as "TC1 (C)".',
  }),
  'no-such-channel': ({ channel, channels }: { channel: string; channels: string }) => ({
    wrong: `there is no channel "${channel}"`,
    todo: `Channels here: ${channels}.`,
  }),
  'no-temperatures': (_: object) => ({
    wrong: 'no column holds temperatures',
    todo: 'Export time and at least one thermocouple channel.',
  }),
  empty: (_: object) => ({ wrong: 'the file is empty', todo: EXPORT_TEXT }),
  'no-readings': ({ first }: { first: string }) => ({
    wrong: `no line is a row of readings: the first is "${first}"`,
    todo: EXPORT_TEXT,
  }),
  'comma-twice': ({ columns, cells }: { columns: number; cells: number }) => ({
    wrong: `the header names ${columns} columns, the rows have ${cells}: the comma seems to separate and to be the decimal mark as well`,
    todo: 'Export with semicolons or tabs, or with a decimal point.',
  }),
  'few-lines-read': ({ lines, read }: { lines: number; read: number }) => ({
    wrong: `of ${lines} lines below the header only ${read} could be read`,
    todo: 'Look at the lines named here; the file may hold two tables, or a form of time that is not known.',
  }),
  'too-many-cells': ({ cells, columns }: { cells: number; columns: number }) => ({
    wrong: `the line has ${cells} cells where the others have ${columns}`,
    todo: 'The line is left out: which of them is the reading cannot be told. See whether two lines ran into each other.',
  }),
  'no-temperature': ({ text, channel }: { text: string; channel: string }) => ({
    wrong: `"${text}" in "${channel}" is no temperature`,
    todo: 'It counts as a gap. Write a number, or leave the cell empty.',
  }),
};

const EXPORT_TEXT =
  'Export text (CSV): a line per reading, time first, a column per thermocouple, separated by commas, semicolons or tabs.';

export type LogProblems = typeof LOG_PROBLEMS;
export type LogProblemId = keyof LogProblems;

/** The problem in English, and as what it may be said otherwise. */
export function logProblem<Name extends LogProblemId>(
  id: Name,
  about: Parameters<LogProblems[Name]>[0] & About,
): LogProblem {
  return { ...(LOG_PROBLEMS[id] as (about: About) => Sentences)(about), told: { id, about } };
}

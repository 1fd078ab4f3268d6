/** What a command is made of. */
import { MOST_MONEY } from '../record/schema.ts';

export interface Flag {
  readonly type: 'boolean' | 'string';
  readonly about: string;
  readonly short?: string;
  /** what a string flag takes, for the help */
  readonly takes?: string;
  readonly multiple?: boolean;
}

export interface CommandInput {
  readonly positionals: readonly string[];
  readonly values: Readonly<Record<string, boolean | string | readonly string[] | undefined>>;
}

export interface Command {
  readonly name: string;
  readonly usage: string;
  /** one line */
  readonly about: string;
  /** further lines of the command's own help */
  readonly more: readonly string[];
  readonly flags: Readonly<Record<string, Flag>>;
  readonly run: (input: CommandInput) => Promise<number>;
}

/** The user's input is at fault; the message says what, where and what to do. Exit code 1. */
export class BadInput extends Error {}

export function stringFlag(input: CommandInput, name: string): string | undefined {
  const value = input.values[name];
  return typeof value === 'string' ? value : undefined;
}

/** A whole number from a flag, or the fallback when the flag was not given. */
export function wholeFlag(input: CommandInput, name: string, fallback: number, least: number, most: number): number {
  const typed = stringFlag(input, name);
  if (typed === undefined) return fallback;
  const value = Number(typed);
  if (!Number.isInteger(value) || value < least || value > most)
    throw new BadInput(`--${name} takes a whole number from ${least} to ${most}; "${typed}" is not one.`);
  return value;
}

/** A decimal number from a flag, or undefined when it was not given. */
export function amountFlag(input: CommandInput, name: string): number | undefined {
  const typed = stringFlag(input, name);
  if (typed === undefined) return undefined;
  const value = typed.trim() === '' ? Number.NaN : Number(typed);
  if (!Number.isFinite(value) || value < 0)
    throw new BadInput(`--${name} takes an amount of money, 0 or more; "${typed}" is not one.`);
  if (value > MOST_MONEY)
    throw new BadInput(
      `--${name} takes an amount of money up to ${MOST_MONEY}; "${typed}" is more: a slip of the finger.`,
    );
  return value;
}

export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}

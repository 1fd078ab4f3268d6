import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { profileAnswer, sayTime, unreadableAnswer } from '../assess/thermal-profile.ts';
import { ALLOYS, type AlloyClass, findAlloy } from '../joints/alloys.ts';
import { judgeProfile } from '../joints/judged-profile.ts';
import type { LayoutProblem, TimeUnit } from '../joints/log-columns.ts';
import { decodeLog } from '../joints/log-encoding.ts';
import { measureProfile } from '../joints/profile.ts';
import { packageWindow, type ReflowWindow } from '../joints/reflow-window.ts';
import { sayProfile } from '../joints/say-profile.ts';
import {
  type ReadLogOptions,
  readThermocoupleLog,
  type ThermocoupleLog,
  type UnreadableLog,
} from '../joints/thermocouple-log.ts';
import { BadInput, type Command, type CommandInput, printJson, stringFlag } from './command.ts';
import { packageFlags } from './package-flags.ts';
import { readWindow } from './window-file.ts';

export const profileCommand: Command = {
  name: 'profile',
  usage: 'profile <csv>',
  about: 'judges a thermocouple log against its reflow window: rates, soak, time above liquidus, peak, cooling',
  more: [
    "Reads any logger's text file (or - for standard input) and prints each quantity with its bounds, whether it is inside,",
    'outside, or cannot be told, and the verdict as the finding profile-record. Without --window it is judged by J-STD-020D,',
    'whose ceilings depend on the package: --thickness and --volume. A package may be rated otherwise than it is soldered.',
    `Alloys: leaded, lead-free, ${ALLOYS.map(({ id }) => id).join(', ')}.`,
  ],
  flags: {
    alloy: {
      type: 'string',
      takes: 'name',
      about: 'solder of the joints: leaded, lead-free or an alloy (default lead-free)',
    },
    package: {
      type: 'string',
      takes: 'class',
      about: 'what the package is rated for: leaded or lead-free (default: as the solder)',
    },
    ...packageFlags,
    unit: { type: 'string', takes: 'C|F', about: 'unit of the temperatures, where the file does not say' },
    time: { type: 'string', takes: 'unit', about: 'unit of a numeric time column: s, ms or min' },
    every: { type: 'string', takes: 's', about: 'seconds from row to row, for a file without a time column' },
    channel: { type: 'string', takes: 'name', multiple: true, about: 'judge this channel only (may be given again)' },
    span: { type: 'string', takes: 's', about: 'seconds that a rate is taken over (default 10)' },
    sensor: { type: 'string', takes: 'K', about: "thermocouples' own tolerance, +-K, to count in (default 0)" },
  },
  run: async (input) => {
    const path = csvPath(input);
    const window = await windowOf(input);
    const log = await readLog(path, input);
    if (process.stderr.isTTY && log.lines >= 50_000) process.stderr.write('\r\u001b[K');
    if (log.kind === 'unreadable') {
      if (input.values.json !== true) throw new BadInput(sayUnreadable(path, log));
      printJson(unreadableAnswer(log));
      return 1;
    }
    const rateSpanSeconds = numberFlag(input, 'span');
    const sensorHalfWidth = numberFlag(input, 'sensor', true);
    const profile = measureProfile(log, window.levels, {
      ...(rateSpanSeconds === undefined ? {} : { rateSpanSeconds }),
      ...(sensorHalfWidth === undefined ? {} : { sensorHalfWidth }),
    });
    const judged = judgeProfile(profile, window);
    if (input.values.json === true) printJson(profileAnswer(log, profile, judged));
    else process.stdout.write(`${sayProfile(profile, judged)}\n${sayLog(log)}\n`);
    return 0;
  },
};

function csvPath(input: CommandInput): string {
  const [path, ...more] = input.positionals;
  if (path === undefined)
    throw new BadInput("Name a logger's file, or - for standard input: worth-the-heat profile <csv>");
  if (more.length > 0) throw new BadInput(`One log at a time: "${more[0]}" is one too many.`);
  return path;
}

async function readLog(path: string, input: CommandInput): Promise<ThermocoupleLog | UnreadableLog> {
  const unit = stringFlag(input, 'unit')?.toUpperCase();
  if (unit !== undefined && unit !== 'C' && unit !== 'F') throw new BadInput(`--unit takes C or F, not "${unit}".`);
  const time = stringFlag(input, 'time');
  const timeUnit = time === undefined ? undefined : TIME_UNITS[time];
  if (time !== undefined && timeUnit === undefined) throw new BadInput(`--time takes s, ms or min, not "${time}".`);
  const secondsPerRow = numberFlag(input, 'every');
  const channels = input.values.channel;
  const size = path === '-' ? undefined : await sizeOf(path);
  const options: ReadLogOptions = {
    ...(unit === undefined ? {} : { unit }),
    ...(timeUnit === undefined ? {} : { timeUnit }),
    ...(secondsPerRow === undefined ? {} : { secondsPerRow }),
    ...(Array.isArray(channels) ? { channels: channels as string[] } : {}),
    onProgress: progressTo(size),
  };
  const chunks = path === '-' ? process.stdin : createReadStream(path, { highWaterMark: 1 << 18 });
  return readThermocoupleLog(decodeLog(chunks as AsyncIterable<Uint8Array>), options);
}

const TIME_UNITS: { readonly [name: string]: TimeUnit } = { s: 'seconds', ms: 'milliseconds', min: 'minutes' };

async function sizeOf(path: string): Promise<number> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) throw new BadInput(`${path}: that is a folder. Name a logger's file.`);
    return found.size;
  } catch (error) {
    if (error instanceof BadInput) throw error;
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    throw new BadInput(
      `${path}: ${missing ? 'there is no such file' : (error as Error).message}. Name a logger's file.`,
    );
  }
}

/** On a terminal one line that is written over; elsewhere a line for every quarter million. Short files need none. */
function progressTo(size: number | undefined): (progress: { lines: number; characters: number }) => void {
  const terminal = process.stderr.isTTY === true;
  let next = terminal ? 50_000 : 250_000;
  return ({ lines, characters }) => {
    if (lines < next) return;
    next = lines + (terminal ? 50_000 : 250_000);
    const share = size ? ` (${Math.min(100, Math.round((100 * characters) / size))} %)` : '';
    process.stderr.write(terminal ? `\rread ${lines} lines${share} ` : `read ${lines} lines${share}\n`);
  };
}

async function windowOf(input: CommandInput): Promise<ReflowWindow> {
  const file = stringFlag(input, 'window');
  const alloy = stringFlag(input, 'alloy');
  if (file !== undefined) {
    for (const flag of ['alloy', 'package', 'thickness', 'volume'])
      if (input.values[flag] !== undefined)
        throw new BadInput(`--${flag} belongs to the classes of the standard; a window of the shop's own says it all.`);
    return readWindow(file);
  }
  const solder = classOf('alloy', alloy ?? 'lead-free');
  const rated = stringFlag(input, 'package');
  const thickness = numberFlag(input, 'thickness');
  const volume = numberFlag(input, 'volume');
  return packageWindow(
    solder,
    { ...(thickness === undefined ? {} : { thickness }), ...(volume === undefined ? {} : { volume }) },
    rated === undefined ? solder : classOf('package', rated),
  );
}

function classOf(flag: string, name: string): AlloyClass {
  if (name === 'leaded' || name === 'snpb') return 'snpb';
  if (name === 'lead-free') return 'lead-free';
  const alloy = flag === 'alloy' ? findAlloy(name) : undefined;
  if (alloy?.class) return alloy.class;
  if (alloy) throw new BadInput(`J-STD-020 has no class for ${alloy.id}: judge it by a window of your own (--window).`);
  const known = flag === 'alloy' ? `, ${ALLOYS.map(({ id }) => id).join(', ')}` : '';
  throw new BadInput(`--${flag} takes leaded, lead-free${known}; "${name}" is none of them.`);
}

function numberFlag(input: CommandInput, name: string, orNought = false): number | undefined {
  const typed = stringFlag(input, name);
  if (typed === undefined) return undefined;
  const value = typed.trim() === '' ? Number.NaN : Number(typed);
  if (!Number.isFinite(value) || value < 0 || (value === 0 && !orNought))
    throw new BadInput(`--${name} takes a number ${orNought ? 'from' : 'above'} nought; "${typed}" is not one.`);
  return value;
}

function sayPlace({ line, column, wrong, todo }: LayoutProblem): string {
  return `line ${line}${column === null ? '' : `, column ${column}`}: ${wrong}. ${todo}`;
}

function sayUnreadable(path: string, { problems, problemsBeyond }: UnreadableLog): string {
  const where = path === '-' ? 'standard input' : path;
  const more = problemsBeyond > 0 ? [`and ${problemsBeyond} more`] : [];
  return [`${where}: no profile can be read from this.`, ...problems.map(sayPlace), ...more].join('\n');
}

function sayLog(log: ThermocoupleLog): string {
  const { layout, skipped, problems, problemsBeyond } = log;
  const units = layout.channels.map(({ name, unit, unitFrom }) => `${name} in ${unit} (${unitFrom})`).join(', ');
  const passed = skipped.map(({ reason, count, firstLine }) => `${count} ${reason} (first: line ${firstLine})`);
  const gaps = log.channels.flatMap(({ name, gaps: { empty, marked, impossible, unreadable } }) =>
    empty + marked + impossible + unreadable === 0
      ? []
      : [`${name}: ${empty} empty, ${marked} marked as no reading, ${impossible} impossible, ${unreadable} unreadable`],
  );
  return [
    `Read ${log.seconds.length} rows of ${log.lines} lines; time: ${sayTime(log)}; ${units}.`,
    ...(passed.length > 0 ? [`Other lines: ${passed.join(', ')}.`] : []),
    ...layout.leftOut.map(({ name, because }) => `Column "${name}" left out: ${because}.`),
    ...gaps.map((text) => `Gaps in ${text}.`),
    ...problems.map(sayPlace),
    ...(problemsBeyond > 0 ? [`and ${problemsBeyond} more problems`] : []),
  ].join('\n');
}

/** `worksheet --step`: one hold point more, and the record with it on standard output. */
import type { Record as CardRecord } from '../record/schema.ts';
import { STEP_OUTCOMES } from '../record/schema.ts';
import { type Found, finishWork, type Recorded, recordStep } from '../work-order/record-step.ts';
import type { WorkOrder } from '../work-order/schema.ts';
import { BadInput, type CommandInput, type Flag, printJson, stringFlag } from './command.ts';

export const stepFlags: Readonly<Record<string, Flag>> = {
  step: { type: 'string', takes: 'id', about: 'record this hold point and print the record that has it' },
  outcome: { type: 'string', takes: STEP_OUTCOMES.join('|'), about: 'how it came out (with --step)' },
  note: { type: 'string', takes: 'text', about: 'what was written down there (with --step)' },
  seen: { type: 'string', takes: 'finding=state', multiple: true, about: 'what was seen there (may be given again)' },
  read: {
    type: 'string',
    takes: 'finding=reading',
    multiple: true,
    about: 'what was read there, such as resistance-core=0.31',
  },
  at: { type: 'string', takes: 'time', about: 'when, such as 2026-03-31T10:00:00Z (default now)' },
  works: { type: 'string', takes: 'yes|no', about: 'say whether the card works, which closes the work' },
};

/** Whether the command line records something rather than asking for the sheet. */
export function records(input: CommandInput): boolean {
  const alone = ['outcome', 'note', 'seen', 'read', 'at'].find((flag) => input.values[flag] !== undefined);
  if (input.values.step === undefined && alone !== undefined)
    throw new BadInput(`--${alone} belongs to a hold point: name it with --step.`);
  if (input.values.step !== undefined && input.values.works !== undefined)
    throw new BadInput('--step and --works are two records: give one after the other.');
  return input.values.step !== undefined || input.values.works !== undefined;
}

export function recordAndPrint(
  input: CommandInput,
  order: WorkOrder,
  record: CardRecord,
  known: Parameters<typeof recordStep>[3],
): void {
  const recorded = input.values.step === undefined ? finished(input, record) : stepped(input, order, record, known);
  if (!recorded.ok) throw new BadInput(`${recorded.wrong} ${recorded.todo}`);
  printJson(recorded.record);
}

function finished(input: CommandInput, record: CardRecord): Recorded {
  const works = stringFlag(input, 'works');
  if (works !== 'yes' && works !== 'no') throw new BadInput(`--works takes yes or no; "${works}" is neither.`);
  return finishWork(record, works === 'yes');
}

function stepped(
  input: CommandInput,
  order: WorkOrder,
  record: CardRecord,
  known: Parameters<typeof recordStep>[3],
): Recorded {
  const typed = stringFlag(input, 'outcome');
  const outcome = STEP_OUTCOMES.find((one) => one === typed);
  if (!outcome)
    throw new BadInput(
      `--outcome takes ${STEP_OUTCOMES.join(', ')}; ${typed === undefined ? 'it is missing' : `"${typed}" is none of them`}.`,
    );
  const at = stringFlag(input, 'at') ?? new Date().toISOString();
  if (Number.isNaN(Date.parse(at)) || !/(Z|[+-]\d\d:\d\d)$/.test(at))
    throw new BadInput(`--at takes a date with time and zone, such as 2026-03-31T10:00:00Z; "${at}" is not one.`);
  const note = stringFlag(input, 'note');
  const found: Found[] = [
    ...pairs(input, 'seen').map(([finding, state]) => ({ finding, state })),
    ...pairs(input, 'read').map(([finding, typedReading]) => ({ finding, typed: typedReading })),
  ];
  const step = stringFlag(input, 'step')!;
  return recordStep(order, record, { step, at, outcome, ...(note === undefined ? {} : { note }), found }, known);
}

function pairs(input: CommandInput, name: string): (readonly [finding: string, value: string])[] {
  const given = input.values[name];
  return (Array.isArray(given) ? (given as string[]) : []).map((text) => {
    const at = text.indexOf('=');
    if (at <= 0 || at === text.length - 1)
      throw new BadInput(
        `--${name} takes a finding, "=" and what was found, such as ball-grid=intact; "${text}" is not that.`,
      );
    return [text.slice(0, at), text.slice(at + 1)] as const;
  });
}

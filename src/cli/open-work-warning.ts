/** Said above an assessment of a card that lies open in its work. */
import type { Knowledge } from '../knowledge/knowledge.ts';
import { parseRecord } from '../record/parse.ts';
import { openWork } from '../work-order/open-work.ts';

/** To standard error, so that what is printed stays what it is. Nothing where no work is under way or the card has not been touched yet. */
export function warnOfOpenWork(record: unknown, { remedies }: Pick<Knowledge, 'remedies'>): void {
  const parsed = parseRecord(record);
  const open = parsed.ok ? openWork(parsed.record) : null;
  if (!open?.touched) return;
  const name = remedies.find(({ id }) => id === open.event.remedy)?.name ?? open.event.remedy;
  process.stderr.write(
    `Work is under way (${name}): what follows speaks of the card as it will lie there afterwards, of which nobody can tell yet whether it works.\n`,
  );
}

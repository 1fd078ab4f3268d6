/** A record for a card that has just been put on the bench. */
import type { Record } from '../record/schema.ts';
import { formatTag, messages } from './language.ts';

/** The record format this wizard writes; a type error here means that it has moved on. */
const FORMAT: Record['format'] = 1;

/** `chance` makes ids differ that were made in the same second: a number in [0, 1). */
function newId(prefix: string, now: Date, chance: number): string {
  const stamp = now.toISOString().slice(0, 19).replace(/\D/g, '');
  const suffix = Math.floor(chance * 36 ** 3)
    .toString(36)
    .padStart(3, '0');
  return `${prefix}-${stamp}-${suffix}`;
}

export function newRecord(now: Date, chance: number, locale: string): Record {
  const day = new Intl.DateTimeFormat(formatTag(locale), {
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
  });
  return {
    format: FORMAT,
    id: newId('card', now, chance),
    title: messages.value.card.titleOfNew(day.format(now)),
    timeline: [{ type: 'arrived', at: now.toISOString(), facts: {} }],
  };
}

/** A worked case made one's own: the same answers, none of what it is meant to lead to, still marked as invented. */
export function copyOfCase(record: Record, now: Date, chance: number): Record {
  const { worked: _worked, $schema: _schema, ...rest } = record;
  return { ...rest, id: newId(`${record.id.slice(0, 40).replace(/-+$/, '')}`, now, chance), invented: true };
}

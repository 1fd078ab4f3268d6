/** An empty record: the card has arrived, nothing has been looked at. */
import { type FactAnswers, type Money, RECORD_FORMAT, type Record } from './schema.ts';

export const FORMAT_OF_A_NEW_RECORD = RECORD_FORMAT;

export function newRecord(given: {
  readonly id: string;
  readonly title: string;
  /** when the card arrived, ISO 8601 with offset */
  readonly at: string;
  readonly facts: FactAnswers;
  readonly money?: Money;
}): Record {
  return {
    format: RECORD_FORMAT,
    id: given.id,
    title: given.title,
    ...(given.money === undefined ? {} : { money: given.money }),
    timeline: [{ type: 'arrived', at: given.at, facts: given.facts }],
  };
}

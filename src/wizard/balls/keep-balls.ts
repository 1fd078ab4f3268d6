/** What is typed of the balls, as it is kept with the card: by kind of package, and nothing where nothing is typed. */
import type { Balls } from '../../record/balls.ts';
import type { Record } from '../../record/schema.ts';

/** The field of what is typed there and cannot be read. A colon is in no id. */
export const ballField = (kind: string, name: keyof Balls): string => `balls-${kind}:${name}`;

export const ballsOf = ({ balls }: Record, kind: string): Balls => balls?.[kind] ?? {};

/** The record with this value, or without it where it is undefined. */
export function withBall<Name extends keyof Balls>(
  record: Record,
  kind: string,
  name: Name,
  value: Balls[Name] | undefined,
): Record {
  const { [name]: _before, ...others } = ballsOf(record, kind);
  const mine: Balls = value === undefined ? others : { ...others, [name]: value };
  const { [kind]: _mine, ...rest } = record.balls ?? {};
  const balls = Object.keys(mine).length === 0 ? rest : { ...rest, [kind]: mine };
  const { balls: _balls, ...bare } = record;
  return Object.keys(balls).length === 0 ? bare : { ...bare, balls };
}

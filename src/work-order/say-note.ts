/** Notes of a hold point: kept under the words of the rules, whatever the language, and shown under those of the order. */
import type { OrderStep } from './schema.ts';

const BETWEEN = '; ';

type Blanks = Pick<OrderStep, 'record' | 'recordAs'>;

export interface Written {
  /** place of the blank; null: what else was written */
  readonly place: number | null;
  readonly said: string;
}

/** As it is kept in the record: blanks that were filled, each under its words, then the rest. */
export function keepNote({ recordAs }: Blanks, written: readonly Written[]): string {
  return written
    .filter(({ said }) => said !== '')
    .map(({ place, said }) => (place === null ? said : `${recordAs[place]}: ${said}`))
    .join(BETWEEN);
}

/** A note that was kept, blank by blank; what stands under no blank belongs to the one before it. */
export function readNote({ recordAs }: Blanks, note: string): readonly Written[] {
  const parts = note === '' ? [] : note.split(BETWEEN);
  const written: { place: number | null; said: string }[] = [];
  for (const part of parts) {
    const place = recordAs.findIndex((asks) => part.startsWith(`${asks}: `));
    const last = written.at(-1);
    if (place >= 0) written.push({ place, said: part.slice(recordAs[place]!.length + 2) });
    else if (last === undefined) written.push({ place: null, said: part });
    else last.said = `${last.said}${BETWEEN}${part}`;
  }
  return written;
}

/** In the language of the order. */
export function sayNote(step: Blanks, note: string): string {
  return readNote(step, note)
    .map(({ place, said }) => (place === null ? said : `${step.record[place]}: ${said}`))
    .join(BETWEEN);
}

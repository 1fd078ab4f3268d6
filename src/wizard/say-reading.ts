/** Readings as a technician reads them. Apart from the other words, because the bench list has no readings. */
import { formatQuantity, type Quantity } from '../evidence/quantity.ts';
import { messages } from './language.ts';
import { sayNumber, sayPercent } from './words.ts';

/** With its SI prefix and unit, in the decimal mark of the language. */
export function sayQuantity(value: number, quantity: Quantity, digits = 3): string {
  const [number, ...unit] = formatQuantity(value, quantity, digits).split(' ');
  const said = Number.isFinite(Number(number))
    ? sayNumber(Number(number), { maximumSignificantDigits: digits })
    : number;
  return [said, ...unit].join('\u00a0');
}

/** The states that carry weight, heaviest first, as shares of the whole; those under a twentieth are left out. */
export function sayGrade(
  states: readonly string[],
  weights: readonly number[],
  names: (state: string) => string,
): string {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (total <= 0) return messages.value.readings.fitsNoState;
  const shares = states
    .map((state, index) => ({ state, share: (weights[index] ?? 0) / total }))
    .filter(({ share }) => share >= 0.05)
    .sort((a, b) => b.share - a.share);
  if (shares.length === 1) return names(shares[0]!.state);
  return shares.map(({ state, share }) => `${names(state)} ${sayPercent(share)}`).join(', ');
}

/** Amounts of money as people type them: `150`, `120-180`, `120 150 180`. */
import type { Amount } from '../record/schema.ts';
import { messages } from './language.ts';

/** A high this many times the likely is two figures run into one; a guess of a factor is not that wide. */
const FURTHEST_HIGH = 20;

export type ReadAmount =
  | { readonly ok: true; readonly amount: Amount }
  | { readonly ok: false; readonly wrong: string; readonly todo: string };

const failed = (wrong: string): ReadAmount => ({ ok: false, wrong, todo: messages.value.amounts.todo });

/** A range of two figures takes their middle as the likely one. */
export function readAmount(typed: string): ReadAmount {
  const { amounts } = messages.value;
  const text = typed.replace(/[$€£¥\s]+/g, ' ').trim();
  if (text === '') return failed(amounts.empty);
  if (/^-|[-–]\s*-/.test(text)) return failed(amounts.belowZero);
  const parts = text.split(/\s*(?:-|–|\.\.+|\bto\b|;)\s*|\s+/).filter((part) => part !== '');
  const figures = parts.map(readFigure);
  if (figures.some((figure) => figure === null)) return failed(amounts.notAnAmount(typed.trim()));
  const [low, middle, high, ...rest] = figures as number[];
  if (low === undefined || rest.length > 0) return failed(amounts.tooMany);
  if (middle === undefined) return { ok: true, amount: low };
  const amount = high === undefined ? { low, likely: (low + middle) / 2, high: middle } : { low, likely: middle, high };
  if (amount.low > amount.likely || amount.likely > amount.high) return failed(amounts.falling);
  if (amount.likely > 0 && amount.high > FURTHEST_HIGH * amount.likely) return failed(amounts.farApart(parts.at(-1)!));
  return { ok: true, amount };
}

/** Money has no thousandths: a comma or point before three digits parts thousands, one before one or two parts cents. */
function readFigure(text: string): number | null {
  const plain = text.replace(/[.,](?=\d{3}(\D|$))/g, '').replace(/,(\d{1,2})$/, '.$1');
  return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : null;
}

/** The same amount, to the cent, as it can be typed again. */
export function writeAmount(amount: Amount): string {
  if (typeof amount === 'number') return String(toTheCent(amount));
  const [low, likely, high] = [amount.low, amount.likely, amount.high].map(toTheCent) as [number, number, number];
  return likely === (low + high) / 2 ? `${low}-${high}` : `${low} ${likely} ${high}`;
}

const toTheCent = (figure: number): number => Math.round(100 * figure) / 100;

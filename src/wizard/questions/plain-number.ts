/** A count or an age as people type it: `3,5`, `8,760`, `8.760`, `4k`. NaN: it is none. */

/** Fields that reach this far take three digits after one mark for thousands, as figures are shown beside them. */
const COUNTED_IN_THOUSANDS = 1_000;

export function plainNumber(text: string, max: number): number {
  const typed = text.trim();
  if (max >= COUNTED_IN_THOUSANDS) {
    if (/^\d{1,3}([.,\u00A0 ’']\d{3})+$/.test(typed)) return Number(typed.replace(/\D/g, ''));
    const thousands = /^(\d+(?:[.,]\d+)?)\s*k$/i.exec(typed);
    if (thousands) return Math.round(1_000_000 * Number(thousands[1]!.replace(',', '.'))) / 1_000;
  }
  const decimal = typed.replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(decimal) ? Number(decimal) : Number.NaN;
}

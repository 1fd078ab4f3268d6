/** Units as the trade writes them. The rules are typed on any keyboard: `degC`, `um`, `mm2`. */
const SIGNS: readonly (readonly [RegExp, string])[] = [
  [/\bdegC\b/g, '°C'],
  [/\bdegF\b/g, '°F'],
  [/\bug\//g, 'µg/'],
  [/\bum\b/g, 'µm'],
  [/\b([mc]?m)2\b/g, '$1²'],
  [/\b([mc]?m)3\b/g, '$1³'],
];

export function asWritten(text: string): string {
  return SIGNS.reduce((written, [plain, sign]) => written.replace(plain, sign), text);
}

/**
 * Reads back what Chromium printed: sheets, their size, and the text on them. Only what its PDF writer makes is understood
 * (ISO 32000-1: 7.5 file structure, 9.4.3 text showing, 9.10.3 ToUnicode maps).
 */
import { inflateSync } from 'node:zlib';

export interface Printed {
  readonly sheets: readonly { readonly width: number; readonly height: number }[];
  /** every letter in the order it was drawn, white space left out */
  readonly letters: string;
}

interface Part {
  readonly id: string;
  readonly head: string;
  readonly stream: string | null;
}

export function readPrinted(pdf: Buffer): Printed {
  const parts = partsOf(pdf.toString('latin1'));
  const byId = new Map(parts.map((part) => [part.id, part]));
  const sheets = parts
    .filter(({ head }) => /\/Type\s*\/Page\b(?!s)/.test(head))
    .map(({ head }) => {
      const [, width, height] = /\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/.exec(head) ?? [];
      return { width: Number(width), height: Number(height) };
    });
  const maps = new Map<string, ReadonlyMap<string, string>>();
  // fonts are named by the number of their object: /F4 4 0 R
  for (const { head } of parts)
    for (const [, name, id] of head.matchAll(/\/(F\d+)\s+(\d+) 0 R/g)) {
      const [, map] = /\/ToUnicode\s+(\d+) 0 R/.exec(byId.get(id!)?.head ?? '') ?? [];
      const text = map === undefined ? null : (byId.get(map)?.stream ?? null);
      if (text !== null) maps.set(name!, unicodeMap(text));
    }
  const drawn = parts.flatMap(({ stream }) => (stream !== null && /\bT[jJ]\b/.test(stream) ? [stream] : []));
  return {
    sheets,
    letters: drawn
      .map((stream) => textIn(stream, maps))
      .join('')
      .replace(/\s+/g, ''),
  };
}

function partsOf(file: string): Part[] {
  return [...file.matchAll(/(?:^|\n)(\d+) 0 obj\b([\s\S]*?)endobj/g)].map(([, id, body]) => {
    const at = body!.search(/stream\r?\n/);
    if (at < 0) return { id: id!, head: body!, stream: null };
    const head = body!.slice(0, at);
    const from = body!.indexOf('\n', at) + 1;
    const raw = Buffer.from(body!.slice(from, body!.lastIndexOf('endstream')), 'latin1');
    if (!/\/FlateDecode/.test(head)) return { id: id!, head, stream: raw.toString('latin1') };
    return { id: id!, head, stream: /\/Subtype\s*\/Image|\/Length1/.test(head) ? null : inflate(raw) };
  });
}

function inflate(raw: Buffer): string | null {
  try {
    return inflateSync(raw).toString('latin1');
  } catch {
    return null;
  }
}

function unicodeMap(text: string): ReadonlyMap<string, string> {
  const map = new Map<string, string>();
  for (const [, block] of text.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, glyph, code] of block!.matchAll(/<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>/g))
      map.set(glyph!.toUpperCase(), utf16(code!));
  for (const [, block] of text.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, low, high, code] of block!.matchAll(/<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>/g))
      for (let glyph = Number.parseInt(low!, 16); glyph <= Number.parseInt(high!, 16); glyph++) {
        const moved = (Number.parseInt(code!, 16) + glyph - Number.parseInt(low!, 16)).toString(16);
        map.set(glyph.toString(16).padStart(low!.length, '0').toUpperCase(), utf16(moved.padStart(4, '0')));
      }
  return map;
}

const utf16 = (hex: string): string =>
  (hex.match(/.{4}/g) ?? []).map((unit) => String.fromCharCode(Number.parseInt(unit, 16))).join('');

function textIn(stream: string, maps: ReadonlyMap<string, ReadonlyMap<string, string>>): string {
  let font: ReadonlyMap<string, string> | undefined;
  let text = '';
  for (const [, name, shown] of stream.matchAll(/\/(F\d+)\s+[\d.]+\s+Tf|((?:<[0-9a-fA-F]*>|\[[^\]]*\])\s*T[jJ])/g)) {
    if (name !== undefined) font = maps.get(name);
    for (const [, hex] of (shown ?? '').matchAll(/<([0-9a-fA-F]*)>/g))
      text += (hex!.match(/.{4}/g) ?? []).map((glyph) => font?.get(glyph.toUpperCase()) ?? '').join('');
  }
  return text;
}

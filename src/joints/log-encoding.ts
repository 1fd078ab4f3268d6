/** Bytes of a logger's file to text, in whichever encoding it was written. */

const LITTLE_ENDIAN = [0xff, 0xfe];
const BIG_ENDIAN = [0xfe, 0xff];
const NUL = 0;
const BYTES_TO_TELL = 4096;

/**
 * Text of a log, chunk by chunk. UTF-16 is told by its byte-order mark, or by the noughts between plain letters that it is made of;
 * everything else is read as UTF-8, and from the first byte that cannot be UTF-8 on as Windows-1252, in which loggers' own software
 * writes degree signs and umlauts. A file that has shown UTF-8 beyond plain letters stays it: its odd bytes are damage, shown
 * as such. Cost: linear.
 */
export async function* decodeLog(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  let decoder: TextDecoder | null = null;
  let mayBeOther = true;
  for await (const chunk of chunks) {
    if (decoder === null) {
      const wide = wideEncoding(chunk);
      mayBeOther = wide === null;
      decoder = wide === null ? new TextDecoder('utf-8', { fatal: true }) : new TextDecoder(wide);
    }
    if (!mayBeOther) {
      yield decoder.decode(chunk, { stream: true });
      continue;
    }
    let text: string;
    try {
      text = decoder.decode(chunk, { stream: true });
      if (chunk.some((byte) => byte > 0x7f)) {
        mayBeOther = false;
        decoder = tolerantAfter(chunk);
      }
    } catch {
      mayBeOther = false;
      decoder = new TextDecoder('windows-1252');
      text = decoder.decode(chunk, { stream: true });
    }
    yield text;
  }
  const last = decoder?.decode() ?? '';
  if (last !== '') yield last;
}

/** A decoder that takes over after a chunk, its unfinished letter included, and shows damage instead of refusing it. */
function tolerantAfter(chunk: Uint8Array): TextDecoder {
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  let from = chunk.length;
  while (from > 0 && chunk.length - from < 3 && (chunk[from - 1]! & 0xc0) === 0x80) from -= 1;
  const lead = chunk[from - 1] ?? 0;
  const letter = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc0 ? 2 : 1;
  if (letter > chunk.length - from + 1) decoder.decode(chunk.subarray(from - 1), { stream: true });
  return decoder;
}

function wideEncoding(chunk: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const starts = (mark: readonly number[]) => mark.every((byte, i) => chunk[i] === byte);
  if (starts(LITTLE_ENDIAN)) return 'utf-16le';
  if (starts(BIG_ENDIAN)) return 'utf-16be';
  const looked = Math.min(chunk.length, BYTES_TO_TELL);
  const noughts = [0, 0];
  for (let i = 0; i < looked; i += 1) if (chunk[i] === NUL) noughts[i % 2]! += 1;
  if (noughts[1]! > looked / 4) return 'utf-16le';
  return noughts[0]! > looked / 4 ? 'utf-16be' : null;
}

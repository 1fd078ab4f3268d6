import { describe, expect, it } from 'vitest';
import { decodeLog } from '../../src/joints/log-encoding.ts';

const TEXT = 'Zeit [s];Fühler 1 [°C]\r\n0,0;24,5\r\n0,5;24,9\r\n';

async function decoded(bytes: Uint8Array, size = bytes.length): Promise<string> {
  async function* chunks() {
    for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
  }
  let text = '';
  for await (const chunk of decodeLog(chunks())) text += chunk;
  return text;
}

const utf16 = (text: string, big: boolean) =>
  Uint8Array.from(
    [...text].flatMap((letter) => {
      const code = letter.charCodeAt(0);
      return big ? [code >> 8, code & 255] : [code & 255, code >> 8];
    }),
  );

describe('a logger’s file reads the same in whichever encoding it was written', () => {
  it.each([1, 2, 3, 7, 1000])('in UTF-8, cut into chunks of %d bytes', async (size) => {
    expect(await decoded(new TextEncoder().encode(TEXT), size)).toBe(TEXT);
  });

  it.each([7, 1000])('in Windows-1252, cut into chunks of %d bytes', async (size) => {
    expect(
      await decoded(
        Uint8Array.from(TEXT, (letter) => letter.charCodeAt(0)),
        size,
      ),
    ).toBe(TEXT);
  });

  it.each([false, true])('in UTF-16 (big end first: %s), with and without its mark', async (big) => {
    expect(await decoded(utf16(`\uFEFF${TEXT}`, big))).toBe(TEXT);
    expect(await decoded(utf16(TEXT, big))).toBe(TEXT);
  });

  it('keeps a UTF-8 file with a damaged byte as it is, and shows the damage', async () => {
    const bytes = new TextEncoder().encode(TEXT.repeat(3));
    bytes[bytes.length - 6] = 0xff;
    expect(await decoded(bytes, TEXT.length + 2)).toContain('\uFFFD');
  });
});

import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { canonicalJson, fingerprint, hex } from '../../src/knowledge/fingerprint.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { sha256 } from '../../src/knowledge/sha256.ts';
import { brokenIn, smallFiles, smallKnowledge } from './small-knowledge.ts';

const bytes = (text: string) => new TextEncoder().encode(text);

describe('The version of a knowledge', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('does not depend on the order of files or of keys in them', async () => {
    const { version } = await smallKnowledge();
    const reversed = [...smallFiles()].reverse().map(([file, content]): [string, unknown] => {
      return [file, Object.fromEntries(Object.entries(content as object).reverse())];
    });
    const parsed = await parseKnowledge(new Map(reversed));
    expect(parsed.ok && parsed.knowledge.version).toBe(version);
    expect(version).toMatch(/^[0-9a-f]{16}$/);
  });

  it('changes with any number', async () => {
    const moved = await parseKnowledge(
      brokenIn('faults/core-stage-short.json', (fault) => {
        fault.share.p = 0.21;
      }),
    );
    expect(moved.ok && moved.knowledge.version).not.toBe((await smallKnowledge()).version);
  });

  it('is the same where the platform offers no SHA-256, as on a page that is not served from loopback', async () => {
    const files = [...smallFiles()];
    const offered = await fingerprint(files);
    vi.stubGlobal('crypto', {});
    expect(await fingerprint(files)).toBe(offered);
  });

  it('is taken of JSON with sorted keys and no spaces', () => {
    expect(canonicalJson({ b: [1, { d: null, c: 'x"' }], a: 0.1, gone: undefined })).toBe(
      '{"a":0.1,"b":[1,{"c":"x\\"","d":null}]}',
    );
  });
});

describe('SHA-256', () => {
  // NIST, examples with intermediate values for FIPS 180-4 (one block, two blocks), and the empty message.
  it.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ])('gives the published digest of "%s"', (message, digest) => {
    expect(hex(sha256(bytes(message)))).toBe(digest);
  });

  it('agrees with an independent implementation on messages of any length', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (message) => {
        expect(hex(sha256(message))).toBe(createHash('sha256').update(message).digest('hex'));
      }),
      { seed: 4 },
    );
  });
});

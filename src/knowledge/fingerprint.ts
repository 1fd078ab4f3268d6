/** A short name for what a knowledge says: the same content has the same name on every machine. */
import { sha256 } from './sha256.ts';

/** JSON with the keys of every object in code-unit order and no space between tokens. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${canonicalJson(inner)}`).join(',')}}`;
  }
  return JSON.stringify(value);
}

/** First 16 hex digits of the SHA-256 of the canonical JSON of path -> content. */
export async function fingerprint(files: readonly (readonly [string, unknown])[]): Promise<string> {
  const bytes = new TextEncoder().encode(canonicalJson(Object.fromEntries(files)));
  return hex(await digest(bytes)).slice(0, 16);
}

export function hex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Browsers offer `crypto.subtle` on loopback and https only; a tablet on the bench's own network has neither. */
async function digest(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const subtle: SubtleCrypto | undefined = globalThis.crypto?.subtle;
  return subtle === undefined ? sha256(bytes) : new Uint8Array(await subtle.digest('SHA-256', bytes));
}

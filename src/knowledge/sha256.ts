/**
 * SHA-256 of a message of bytes: 32 bytes (FIPS 180-4, section 6.2). Used only where the platform offers none.
 * The constants are the first 32 bits of the fractional parts of cube and square roots of the first primes (4.2.2,
 * 5.3.3), computed here in whole numbers. Messages up to 2^53 bits. O(length).
 *
 * @example sha256 of the three letters abc begins ba7816bf (FIPS 180-4, example)
 */
export function sha256(message: Uint8Array): Uint8Array {
  const state = Uint32Array.from(PRIMES.slice(0, 8), (prime) => fractionOfRoot(prime, 2n));
  const schedule = new Uint32Array(64);
  const view = new DataView(pad(message).buffer);
  for (let block = 0; block < view.byteLength; block += 64) {
    for (let t = 0; t < 16; t++) schedule[t] = view.getUint32(block + 4 * t);
    for (let t = 16; t < 64; t++) {
      const [s, r] = [schedule[t - 15]!, schedule[t - 2]!];
      const small0 = turn(s, 7) ^ turn(s, 18) ^ (s >>> 3);
      const small1 = turn(r, 17) ^ turn(r, 19) ^ (r >>> 10);
      schedule[t] = small1 + schedule[t - 7]! + small0 + schedule[t - 16]!;
    }
    compress(state, schedule);
  }
  const digest = new DataView(new ArrayBuffer(32));
  state.forEach((word, i) => {
    digest.setUint32(4 * i, word);
  });
  return new Uint8Array(digest.buffer);
}

function compress(state: Uint32Array, schedule: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = state as unknown as [number, number, number, number, number, number, number, number];
  for (let t = 0; t < 64; t++) {
    const big1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const first = (h + big1 + ((e & f) ^ (~e & g)) + ROUND[t]! + schedule[t]!) | 0;
    const big0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const second = (big0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => {
    state[i] = state[i]! + word;
  });
}

/** The message, a one bit, zeros to 56 bytes modulo 64, and its length in bits as 64 bits. */
function pad(message: Uint8Array): Uint8Array<ArrayBuffer> {
  const padded = new Uint8Array(Math.ceil((message.length + 9) / 64) * 64);
  padded.set(message);
  padded[message.length] = 0x80;
  new DataView(padded.buffer).setBigUint64(padded.length - 8, BigInt(message.length) * 8n);
  return padded;
}

const turn = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** The first 32 bits after the point of prime^(1/degree): floor(root of prime * 2^(32 degree)) modulo 2^32. */
function fractionOfRoot(prime: number, degree: bigint): number {
  const target = BigInt(prime) << (32n * degree);
  let root = 0n;
  for (let bit = 1n << 40n; bit > 0n; bit >>= 1n) if ((root + bit) ** degree <= target) root += bit;
  return Number(root & 0xffffffffn);
}

const PRIMES = Array.from({ length: 312 }, (_, n) => n).filter(
  (n) => n > 1 && !Array.from({ length: n }, (_, d) => d).some((d) => d > 1 && n % d === 0),
);
const ROUND = Uint32Array.from(PRIMES.slice(0, 64), (prime) => fractionOfRoot(prime, 3n));

/** Uniform numbers in [0, 1). Passed in wherever something is drawn, so that a run can be repeated. */
export interface Random {
  next(): number;
}

/**
 * A seeded generator: sfc32 (Chris Doty-Humphrey, PractRand), state filled from the seed by splitmix32 and stirred
 * twelve times. 53 random bits per number. Equal seeds give equal sequences on every machine.
 *
 * @example createRandom(7).next() === createRandom(7).next() // true
 */
export function createRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`A seed must be a whole number, not ${seed}.`);
  let mixed = (seed ^ Math.floor(seed / 2 ** 32)) | 0;
  const split = () => {
    mixed = (mixed + 0x9e3779b9) | 0;
    let word = mixed ^ (mixed >>> 16);
    word = Math.imul(word, 0x21f0aaad);
    word ^= word >>> 15;
    word = Math.imul(word, 0x735a2d97);
    return (word ^ (word >>> 15)) | 0;
  };
  let a = split();
  let b = split();
  let c = split();
  let counter = 1;
  const word = () => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return sum >>> 0;
  };
  for (let stir = 0; stir < 12; stir++) word();
  return { next: () => ((word() >>> 5) * 0x4000000 + (word() >>> 6)) / 2 ** 53 };
}

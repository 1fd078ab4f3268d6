/** The examples beside the functions of src/evidence are run: `@example expression // result, and perhaps: what it means`. */
import { readdir, readFile } from 'node:fs/promises';
import { runInNewContext } from 'node:vm';
import { describe, expect, test } from 'vitest';

const FOLDER = new URL('../../src/evidence/', import.meta.url);

interface Example {
  readonly file: string;
  readonly expression: string;
  readonly result: string;
}

async function examples(): Promise<Example[]> {
  const files = (await readdir(FOLDER)).filter((name) => name.endsWith('.ts'));
  const lists = await Promise.all(
    files.map(async (file) => {
      const text = await readFile(new URL(file, FOLDER), 'utf8');
      return [...text.matchAll(/@example (.+) \/\/ (.+)$/gm)].map(([, expression, result]) => ({
        file,
        expression: expression!,
        result: /^[[{']/.test(result!) ? result! : result!.split(':')[0]!,
      }));
    }),
  );
  return lists.flat();
}

describe('what is shown beside a function is what it answers', async () => {
  const found = await examples();
  test('there are examples', () => expect(found.length).toBeGreaterThan(5));

  test.each(found)('$expression is $result ($file)', async ({ file, expression, result }) => {
    const functions = await import(new URL(file, FOLDER).href);
    const answer: unknown = runInNewContext(expression, { ...functions });
    const shown: unknown = runInNewContext(`(${result})`);
    if (typeof shown === 'number')
      expect(Math.abs((answer as number) - shown)).toBeLessThanOrEqual(lastDigit(result) / 2);
    // plain data from another context has other prototypes
    else expect(JSON.parse(JSON.stringify(answer))).toEqual(JSON.parse(JSON.stringify(shown)));
  });
});

/** What one unit in the last printed digit is worth: 8.66e-6 -> 0.01e-6. Printed in full, a double is off by its rounding. */
function lastDigit(printed: string): number {
  const [digits = '', exponent = '0'] = printed.trim().split('e');
  const decimals = digits.split('.')[1]?.length ?? 0;
  return decimals === 0 ? 1e-12 : 10 ** (Number(exponent) - decimals);
}

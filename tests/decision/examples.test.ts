/** The examples beside the functions of src/decision are run, with the published problems at hand: `@example expression // result: remark`. */
import { readdir, readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import * as published from './published-problems.ts';

const FOLDER = new URL('../../src/decision/', import.meta.url);

async function examples() {
  const files = (await readdir(FOLDER)).filter((name) => name.endsWith('.ts'));
  const lists = await Promise.all(
    files.map(async (file) => {
      const text = await readFile(new URL(file, FOLDER), 'utf8');
      return [...text.matchAll(/@example (.+) \/\/ (.+)$/gm)].map(([, expression, result]) => ({
        file,
        expression: expression!,
        // a remark may follow a colon and a blank, outside of brackets and quotes
        result: /^[[{']/.test(result!) ? result!.replace(/(?<=[\]}']): .*$/, '') : result!.replace(/: .*$/, ''),
      }));
    }),
  );
  const functions = await Promise.all(files.map((file) => import(new URL(file, FOLDER).href)));
  return { found: lists.flat(), scope: Object.assign({}, ...functions, published) as Record<string, unknown> };
}

describe('what is shown beside a function of the decision core is what it answers', async () => {
  const { found, scope } = await examples();
  const run = (expression: string): unknown =>
    new Function(...Object.keys(scope), `return (${expression});`)(...Object.values(scope));

  it('has examples to run', () => expect(found.length).toBeGreaterThan(8));

  it.each(found)('$expression is $result ($file)', ({ expression, result }) => {
    closeTo(run(expression), run(result));
  });
});

/** Numbers anywhere in the answer agree to 1e-9. */
function closeTo(answer: unknown, shown: unknown): void {
  if (typeof shown === 'number') expect(answer).toBeCloseTo(shown, 9);
  else if (typeof shown === 'object' && shown !== null) {
    for (const [key, value] of Object.entries(shown)) closeTo((answer as Record<string, unknown>)[key], value);
    expect(Object.keys(answer as object)).toEqual(Object.keys(shown));
  } else expect(answer).toBe(shown);
}

/** The examples beside the functions of src/survival are run: `@example expression // result`. */
import { readdir, readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';

const FOLDER = new URL('../../src/survival/', import.meta.url);

async function examples() {
  const files = (await readdir(FOLDER)).filter((name) => name.endsWith('.ts'));
  const lists = await Promise.all(
    files.map(async (file) => {
      const text = await readFile(new URL(file, FOLDER), 'utf8');
      return [...text.matchAll(/@example (.+?) \/\/ (.+)$/gm)].map(([, expression, result]) => ({
        file,
        expression: expression!,
        result: result!,
      }));
    }),
  );
  const functions = await Promise.all(files.map((file) => import(new URL(file, FOLDER).href)));
  return { found: lists.flat(), scope: Object.assign({}, ...functions) as Record<string, unknown> };
}

describe('what is shown beside a function on survival is what it answers', async () => {
  const { found, scope } = await examples();
  const run = (expression: string): unknown =>
    new Function(...Object.keys(scope), `return (${expression});`)(...Object.values(scope));

  it('has examples to run', () => expect(found.length).toBeGreaterThanOrEqual(7));

  it.each(found)('$expression is $result ($file)', ({ expression, result }) => {
    const [answer, shown] = [run(expression), run(result)];
    if (typeof shown === 'number') expect(answer).toBeCloseTo(shown, 9);
    else expect(answer).toEqual(shown);
  });
});

/** The examples beside the functions of src/joints are run: `@example expression // result: remark`. */
import { readdir, readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';

const FOLDER = new URL('../../src/joints/', import.meta.url);

async function examples() {
  const files = (await readdir(FOLDER)).filter((name) => name.endsWith('.ts'));
  const lists = await Promise.all(
    files.map(async (file) => {
      const text = await readFile(new URL(file, FOLDER), 'utf8');
      return [...text.matchAll(/@example (.+?) \/\/ (.+)$/gm)].map(([, expression, result]) => ({
        file,
        expression: expression!,
        // a remark may follow a number after a colon and a blank
        result: /^[\d-]/.test(result!) ? result!.replace(/: .*$/, '') : result!,
      }));
    }),
  );
  const functions = await Promise.all(files.map((file) => import(new URL(file, FOLDER).href)));
  return { found: lists.flat(), scope: Object.assign({}, ...functions) as Record<string, unknown> };
}

describe('what is shown beside a function on joints is what it answers', async () => {
  const { found, scope } = await examples();
  const run = (expression: string): unknown =>
    new Function(...Object.keys(scope), `return (${expression});`)(...Object.values(scope));

  it('has examples to run', () => expect(found.length).toBeGreaterThan(12));

  it.each(found)('$expression is $result ($file)', ({ expression, result }) => {
    const [answer, shown] = [run(expression), run(result)];
    if (typeof shown === 'number') expect(answer).toBeCloseTo(shown, 8);
    else expect(answer).toEqual(shown);
  });
});

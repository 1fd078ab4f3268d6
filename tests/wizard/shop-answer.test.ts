import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readShop } from '../../src/wizard/shop-answer.ts';
import { openBench, temporaryFolder } from '../store/bench-folder.ts';

/** What the server answers with, made by the store that stands behind it. */
async function answerOf(edit: (text: string) => string) {
  const folder = temporaryFolder();
  const store = openBench(folder);
  const path = join(folder, 'shop.json');
  const good = store.shop();
  if (!good.ok) throw new Error('the default profile does not read');
  writeFileSync(path, edit(`${JSON.stringify(good.shop, null, 2)}\n`));
  const found = store.shop();
  const [status, body] = found.ok
    ? [200, { shop: found.shop }]
    : [422, { wrong: 'The shop profile does not read.', todo: '', issues: found.problems }];
  return { path, answer: await readShop(async () => new Response(JSON.stringify(body), { status })) };
}

describe('the shop profile', () => {
  it('is used where it reads', async () => {
    const { answer } = await answerOf((text) => text);
    expect(answer.problem).toBeNull();
    expect(answer.shop?.format).toBe(1);
  });

  it('that does not read is said with its file and line, one line per figure that is wrong', async () => {
    const { path, answer } = await answerOf((text) =>
      text
        .replace(/"warrantyDays": \d+/, '"warrantyDays": "ninety"')
        .replace(/"currency": "\w+"/, '"currency": "euro"'),
    );
    expect(answer.shop).toBeNull();
    expect(answer.problem?.issues.map(({ place }) => place)).toEqual([
      `${path}:4 currency`,
      expect.stringMatching(/shop\.json:\d+ warrantyDays$/),
    ]);
    for (const { wrong, todo } of answer.problem!.issues) expect([wrong, todo]).not.toContain('');
  });

  it('that is no JSON says where it stops being that', async () => {
    const { path, answer } = await answerOf((text) => text.replace('"format": 1,', '"format": 1'));
    expect(answer.problem?.issues).toMatchObject([{ place: path, wrong: expect.stringContaining('line 3') }]);
  });

  it('of a server that is gone is no fault of the profile', async () => {
    expect(await readShop(() => Promise.reject(new TypeError('refused')))).toEqual({ shop: null, problem: null });
  });
});

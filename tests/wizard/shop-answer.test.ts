import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { SAYINGS, type SayingId, type Sentences, sayTold } from '../../src/knowledge/schema-sayings.ts';
import { preferLanguage } from '../../src/wizard/language.ts';
import { shopProblemsDe } from '../../src/wizard/messages/shop-problems-de.ts';
import { readShop, sayShopIssue } from '../../src/wizard/shop-answer.ts';
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

const speak = (language: string) => preferLanguage({ getItem: () => language }, [], { lang: '' });
afterEach(() => speak('en'));

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

  it('is told in German of what is wrong with it to whoever reads German, and in English, marked so, where that is not known', async () => {
    await speak('de');
    const { answer } = await answerOf((text) =>
      text
        .replace(/"currency": "[^"]*"/, '"currency": "Euro"')
        .replace(/"warrantyDays": \d+/, '"warrantyDays": "ninety"')
        .replace(/"name": "[^"]*"/, '"nmae": "x"'),
    );
    const said = answer.problem!.issues.map(sayShopIssue);
    expect(said.map(({ wrong }) => wrong)).toEqual([
      '„name“ fehlt.',
      '"Euro" passt nicht: Hierher gehört eine Währung aus drei Großbuchstaben.',
      '"ninety" ist ein Text, hierher gehört eine Zahl.',
      '„nmae“ liest hier niemand.',
    ]);
    expect(said.map(({ lang }) => lang)).toEqual([undefined, undefined, undefined, undefined]);
    const broken = await answerOf((text) => text.replace('"format": 1,', '"format": 1'));
    expect(sayShopIssue(broken.answer.problem!.issues[0]!).wrong).toMatch(
      /^Ab Zeile 3, Spalte 3 ist das kein JSON mehr/,
    );
    expect(sayShopIssue({ place: 'shop.json', wrong: 'it is odd', todo: 'Look.' })).toMatchObject({ lang: 'en' });
    await speak('en');
    expect(answer.problem!.issues.map(sayShopIssue)[0]).toMatchObject({ wrong: '"name" is missing', lang: undefined });
  });

  it('has every problem in German, of the same things as in English and with no word of English left', () => {
    const slots = [
      'key',
      'value',
      'is',
      'expected',
      'form',
      'example',
      'entries',
      'least',
      'relation',
      'limit',
      'choices',
    ];
    const about = Object.fromEntries([...slots, 'line', 'column', 'at'].map((slot) => [slot, `<${slot}>`]));
    const marks = ({ wrong, todo }: Sentences) => new Set(`${wrong} ${todo}`.match(/<\w+>/g));
    for (const id of Object.keys(SAYINGS) as SayingId[]) {
      const [english, german] = [SAYINGS, shopProblemsDe].map((said) => sayTold(said, { id, about }));
      // German need not say twice what is to be written
      for (const mark of marks(english!)) expect(marks(german!), id).toContain(mark);
      expect(`${german!.wrong} ${german!.todo}`, id).not.toMatch(/\b(the|and|with|not|where|write|add|use)\b/i);
    }
    expect(
      sayTold(shopProblemsDe, {
        id: 'wrong-type',
        about: { value: '"x"', is: 'a text', expected: 'a number or an object {...}' },
      }).wrong,
    ).toBe('"x" ist ein Text, hierher gehört eine Zahl oder ein Objekt {...}.');
  });

  it('of a server that is gone is no fault of the profile', async () => {
    expect(await readShop(() => Promise.reject(new TypeError('refused')))).toEqual({ shop: null, problem: null });
  });
});

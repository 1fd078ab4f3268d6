import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jsonFaults } from '../../src/knowledge/json-faults.ts';
import { loadKnowledge, loadShop, readJson } from '../../src/knowledge/load.ts';
import { sayProblem } from '../../src/knowledge/say-problem.ts';
import { smallFiles, smallKnowledge } from './small-knowledge.ts';

let folder: string;

async function write(file: string, text: string): Promise<void> {
  await mkdir(dirname(join(folder, file)), { recursive: true });
  await writeFile(join(folder, file), text);
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'rules-'));
  for (const [file, content] of smallFiles()) await write(file, JSON.stringify(content));
});
afterAll(() => rm(folder, { recursive: true }));

async function said(): Promise<string[]> {
  const loaded = await loadKnowledge(folder);
  return loaded.ok ? [] : loaded.problems.map(sayProblem);
}

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

describe('Loading the knowledge from disk', () => {
  it('reads what was written, and passes over notes that are no JSON files', async () => {
    await write('faults/README.md', 'What a fault must give.');
    const loaded = await loadKnowledge(folder);
    expect(loaded.ok && loaded.knowledge).toEqual(await smallKnowledge());
  });

  it('says line and column where a file stops being JSON, and hides no other problem behind it', async () => {
    await write('faults/core-stage-short.json', '{\n  "id": "core-stage-short",\n  "site": power\n}');
    await write(
      'stops/return.json',
      JSON.stringify({ ...(smallFiles().get('stops/return.json') as object), value: 'x' }),
    );
    const all = await said();
    expect(all).toHaveLength(2);
    expect(all[0]).toMatch(
      /^rules\/faults\/core-stage-short\.json: this is no JSON from line 3, column 11 on, at power\. Look there and just before/,
    );
    expect(all[1]).toBe(
      'rules/stops/return.json at value: "x" is not one of the choices. Use one of working-if-sound, as-is, parts.',
    );
  });

  it('says that there is no such folder', async () => {
    const loaded = await loadKnowledge(join(folder, 'elsewhere'));
    expect(loaded.ok ? '' : loaded.problems.map(sayProblem).join()).toBe(
      `${join(folder, 'elsewhere')}: there is nothing here. Give the path of a folder with the knowledge, laid out as rules/ is.`,
    );
  });

  it.each([
    ['a comma too many', '{"a": 1,}', 'this is no JSON from line 1, column 9 on, at }'],
    ['a file that ends early', '{\n "a": [1,\n', 'this is no JSON from line 3, column 1 on, where the file ends'],
    ['an empty file', '', 'this is no JSON from line 1, column 1 on, where the file ends'],
    ['a second value', '{} {}', 'this is no JSON from line 1, column 4 on, at {}'],
    [
      'a key that stands twice',
      '{"a": 1,\n "a": 2}',
      '"a" stands twice in one object, the second time at line 2, column 2',
    ],
  ])('finds %s', (_, text, wrong) => {
    const read = readJson(text);
    expect(read.ok ? '' : read.wrong).toBe(wrong);
  });

  it('takes for JSON exactly what JSON.parse does, where no key stands twice', () => {
    const edited = fc.tuple(
      fc.json(),
      fc.nat(),
      fc.constantFrom('', ',', '}', '"', '0', '-', '.5', '[', ' ', 'e', '\\'),
    );
    fc.assert(
      fc.property(edited, ([json, place, insert]) => {
        const at = place % (json.length + 1);
        const text = json.slice(0, at) + insert + json.slice(at);
        const [fault] = jsonFaults(text);
        if (fault?.repeated !== undefined) return;
        expect(fault === undefined).toBe(parses(text));
      }),
      { numRuns: 1000, seed: 6 },
    );
  });
});

describe('Loading a shop profile', () => {
  it('reads the default profile', async () => {
    const loaded = await loadShop();
    expect(loaded.ok ? [] : loaded.problems.map(sayProblem)).toEqual([]);
  });

  it('says everything that is wrong with a profile', async () => {
    await write(
      'my-shop.json',
      JSON.stringify({
        format: 1,
        name: 'Bench',
        currency: 'euro',
        labourPerHour: 'much',
        comebackCost: { low: 1, likely: 2 },
        consumablesPerHeatCycle: { low: 3, likely: 2, high: 1 },
      }),
    );
    const loaded = await loadShop(join(folder, 'my-shop.json'));
    const all = loaded.ok ? [] : loaded.problems.map(sayProblem);
    const file = join(folder, 'my-shop.json');
    expect(all).toContain(`${file} at policy: "policy" is missing. Add it; the schema in rules/schemas says how.`);
    expect(all).toContain(
      `${file} at currency: "euro" is not a currency of three capital letters. Write a currency of three capital letters, such as EUR.`,
    );
    expect(all).toContain(
      `${file} at labourPerHour: "much" is a text where a number or an object {...} belongs. Write a number or an object {...}.`,
    );
    expect(all).toContain(
      `${file} at comebackCost.high: "high" is missing. Add it; the schema in rules/schemas says how.`,
    );
    expect(all).toContain(`${file} at consumablesPerHeatCycle: low, likely and high must not fall. Correct it.`);
  });

  it('says that there is no such file', async () => {
    const loaded = await loadShop(join(folder, 'none.json'));
    expect(loaded.ok ? '' : loaded.problems.map(sayProblem).join()).toBe(
      `${join(folder, 'none.json')}: there is nothing here. Give the path of a shop profile, such as a copy of rules/shop.json.`,
    );
  });
});

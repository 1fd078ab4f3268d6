import { globSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'vite';
import { afterEach, describe, expect, it } from 'vitest';
import { chooseLanguage, formatTag, messages, preferLanguage } from '../../src/wizard/language.ts';
import { de } from '../../src/wizard/messages/de.ts';
import { en } from '../../src/wizard/messages/en.ts';
import { sayDays, sayMinutes, sayMoney, sayWeight } from '../../src/wizard/words.ts';

const WIZARD = fileURLToPath(new URL('../../src/wizard', import.meta.url));

type Entry = readonly [path: string, text: unknown];

/** Sentences with parameters are filled in with marks that must come out again. */
function entriesOf(catalogue: object, path = ''): readonly Entry[] {
  return Object.entries(catalogue).flatMap(([key, value]): readonly Entry[] => {
    const here = path === '' ? key : `${path}.${key}`;
    return typeof value === 'object' && value !== null ? entriesOf(value, here) : [[here, value]];
  });
}

/** The same words in both: names, units and what is shown on a stamp. */
const SAME_IN_BOTH =
  /^(frame\.(product|titleOf)|words\.(minutes|hours)|words\.(verdicts|stamps)\.reflow|words\.stamps\.|readings\.rails\.5v)/;

describe('The interface in two languages', () => {
  const english = new Map(entriesOf(en));
  const german = new Map(entriesOf(de));

  it('has every sentence in both, with the same parameters', () => {
    expect([...german.keys()].sort()).toEqual([...english.keys()].sort());
    for (const [path, text] of english) {
      const translated = german.get(path);
      expect(typeof translated, path).toBe(typeof text);
      if (typeof text === 'function') expect((translated as typeof text).length, path).toBe(text.length);
    }
  });

  it('leaves no sentence untranslated or empty, and uses every parameter', () => {
    for (const [path, text] of german) {
      if (typeof text === 'function') {
        const marks = Array.from({ length: text.length }, (_, at) => at + 71);
        const said = String(text(...marks));
        for (const mark of marks) expect(said, path).toContain(String(mark));
        if (!SAME_IN_BOTH.test(path)) expect(said, path).not.toBe(english.get(path));
      } else {
        expect(String(text).trim(), path).not.toBe('');
        if (!SAME_IN_BOTH.test(path)) expect(text, path).not.toBe(english.get(path));
      }
    }
  });
});

describe('The screens', () => {
  it('hold no words of their own: every sentence comes out of the catalogues', () => {
    const found = globSync('**/*.tsx', { cwd: WIZARD }).flatMap((file) => wordsIn(join(WIZARD, file)));
    expect(found).toEqual([]);
  });

  it('are searched well enough: a sentence written into one is found', () => {
    const seen = [
      'const A = () => <p>Weighing</p>;',
      'const A = () => <p title="Weighing it">{x}</p>;',
      "const A = () => <p>{pending ? 'Weighing' : y}</p>;",
      "const A = () => <Field label={hot ? `Leads` : ''} />;",
      "const f = () => 'Nothing is known yet';",
    ];
    for (const source of seen) expect(wordsOf(source, 'a.tsx'), source).toHaveLength(1);
    expect(wordsOf('const A = () => <p class="one two" id="reading-core">{x}</p>;', 'a.tsx')).toEqual([]);
  });
});

describe('The chosen language', () => {
  afterEach(() => choose(null));
  const choose = async (kept: string | null, ...tags: string[]) => {
    const page = { lang: '' };
    await preferLanguage({ getItem: () => kept }, tags, page);
    return page.lang;
  };

  it("is the one kept on this device, else the browser's first that there is a catalogue for, else English", async () => {
    expect(await choose(null, 'fr-FR', 'de-AT', 'en')).toBe('de');
    expect(await choose('en', 'de-AT')).toBe('en');
    expect(await choose('tlh', 'pl')).toBe('en');
    expect(await choose(null, 'den-X')).toBe('en');
  });

  it('is kept on this device once chosen, and changes the page with it', async () => {
    const page = { lang: 'en' };
    const kept = new Map<string, string>();
    await chooseLanguage('de', { setItem: (key, value) => void kept.set(key, value) }, page);
    expect([...kept.values()]).toEqual(['de']);
    expect(page.lang).toBe('de');
    expect(messages.value.languages.name).toBe('Deutsch');
  });

  it('carries numbers, money and dates along, and keeps the habits of the shop where it speaks that language', async () => {
    const money = () => sayMoney(1234.4, { locale: 'en-IE', currency: 'EUR' }).replace(/\s/g, ' ');
    expect(money()).toBe('€1,234');
    await choose('de');
    expect(money()).toBe('1.234 €');
    expect(sayMinutes(150)).toBe('2,5 h');
    expect(sayDays(90)).toBe('3 Monate');
    expect(sayWeight(-20)).toBe('schließt es so gut wie aus');
    expect(formatTag('en-IE', 'de-CH')).toBe('de-CH');
    expect(messages.value.frame.undo).toBe('Rückgängig');
  });
});

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

/** Attributes a person reads or hears. */
const READ_OUT =
  /^(title|alt|placeholder|label|summary|about|question|name|aria-label|aria-description|data-label|notAsked)$/;
/** Not read by anybody: keys of the keyboard and lists of elements. */
const IS_CODE = /^(Enter|Escape|Backspace|Delete|Home|End|Tab|[a-z]+(, [a-z]+)+|main h1)$/;
/** A lower-case word on its own names something to the program: a group of radio buttons, a key of the catalogue. */
const isId = (text: string) => /^[a-z0-9-]+$/.test(text);
const isWords = (text: string): boolean => /\p{L}{2}/u.test(text);
const isSentence = (text: string): boolean =>
  !IS_CODE.test(text) && (/\p{L}{2,}[,.:;]? \p{L}/u.test(text) || /^\p{Lu}\p{Ll}+$/u.test(text.trim()));

function wordsIn(path: string): readonly string[] {
  return wordsOf(readFileSync(path, 'utf8'), relative(WIZARD, path));
}

function wordsOf(source: string, file: string): readonly string[] {
  const found: string[] = [];
  const { program, errors } = parseSync(file, source);
  expect(errors, file).toEqual([]);
  const report = (node: Node, text: string) => {
    const line = source.slice(0, node.start).split('\n').length;
    found.push(`${file}:${line}: ${text.trim()}`);
  };
  const visit = (node: Node, attribute: string | null): void => {
    if (node.type === 'ImportDeclaration') return;
    if (node.type === 'JSXText' && isWords(String(node.value))) report(node, String(node.value));
    const text = textOf(node);
    if (text !== null && attribute !== null) {
      if (READ_OUT.test(attribute) && isWords(text) && !isId(text)) report(node, text);
    } else if (text !== null && isSentence(text)) report(node, text);
    const inside = node.type === 'JSXAttribute' ? nameOf(node) : node.type === 'JSXElement' ? null : attribute;
    for (const child of childrenOf(node)) visit(child, inside);
  };
  visit(program as unknown as Node, null);
  return found;
}

function textOf(node: Node): string | null {
  if (node.type === 'Literal' && typeof node.value === 'string') return node.value;
  if (node.type === 'TemplateElement') return (node.value as { cooked: string }).cooked;
  return null;
}

const nameOf = (attribute: Node): string => {
  const name = attribute.name as { name: unknown };
  return typeof name.name === 'string' ? name.name : '';
};

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

const childrenOf = (node: Node): readonly Node[] => Object.values(node).flat().filter(isNode);

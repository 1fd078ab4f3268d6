import { readdir, readFile } from 'node:fs/promises';
import { basename, dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

async function filesUnder(...folders: string[]): Promise<string[]> {
  const listed = await Promise.all(
    folders.map((folder) => readdir(join(ROOT, folder), { recursive: true, withFileTypes: true })),
  );
  return listed
    .flat()
    .filter((entry) => entry.isFile())
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)).split(sep).join('/'));
}

const read = (file: string) => readFile(join(ROOT, file), 'utf8');
const isCode = (file: string) => /\.tsx?$/.test(file);
const withoutComments = (code: string) => code.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');

/** Everything a file imports, types too, as written. */
function importsOf(code: string): string[] {
  const found = withoutComments(code).matchAll(/(?:\bfrom\s*|\bimport\s*\(?\s*)(['"])([^'"\n]+)\1/g);
  return [...found].map((match) => match[2]!);
}

/** The part of the program a file or import belongs to: its folder under src/, or its name where it lies in src/ itself. */
function partOf(file: string): string {
  const [, part] = file.split('/');
  return part!;
}

/**
 * Which parts a part may know, besides itself. Outer parts (assess, letter, wizard, cli, server) may know all within them.
 * What a part knows, it depends on: the inner ones stay plain numbers that can be tested by closed forms and enumeration.
 */
const MAY_KNOW: { readonly [part: string]: readonly string[] } = {
  belief: [],
  decision: ['belief'],
  joints: [],
  survival: [],
  knowledge: ['belief', 'record', 'shop'],
  record: ['knowledge'],
  shop: ['knowledge', 'record'],
  evidence: ['knowledge', 'record', 'shop'],
  'ball-grid': ['evidence', 'joints', 'record'],
  'work-order': ['assess', 'assessment.ts', 'ball-grid', 'evidence', 'joints', 'knowledge', 'letter', 'record', 'shop'],
  lasting: ['learning', 'letter'],
  store: ['knowledge', 'record', 'shop', 'evidence'],
  'assessment.ts': ['knowledge'],
  'lifeline.ts': ['knowledge', 'assessment.ts'],
};

/** Single files that know one thing more. */
const ALSO: { readonly [file: string]: readonly string[] } = {
  // the solder a procedure names must be one of the table of alloys
  'src/knowledge/audit/procedures.ts': ['joints'],
  // publishes the schema of every kind of file and answer, the assessment and the owner's page among them
  'src/knowledge/published.ts': ['assessment.ts', 'ball-grid', 'lifeline.ts', 'learning', 'letter', 'work-order'],
  // the normal distribution is plain numbers: a profile is graded with the one that grades readings
  'src/joints/graded-limit.ts': ['evidence'],
  // ln Gamma is one function wherever it is needed
  'src/survival/gamma-distribution.ts': ['decision'],
  'src/survival/relapse-law.ts': ['decision'],
  // what is wrong with a record has one shape, whether its form or its readings are wrong
  'src/record/parse.ts': ['evidence'],
  'src/record/check.ts': ['evidence'],
};

const PURE = ['belief', 'decision', 'joints', 'survival'];

/** Where the program meets a disk, a socket or a process. */
const EDGES = /^src\/(cli|server|store|bootstrap)\/|^src\/knowledge\/(load|write-schemas)\.ts$/;

describe('Imports point inwards', () => {
  it('and every rule above speaks of something that is there', async () => {
    const parts = new Set((await filesUnder('src')).map(partOf));
    expect(Object.keys(MAY_KNOW).filter((part) => !parts.has(part))).toEqual([]);
    expect(PURE.filter((part) => !parts.has(part))).toEqual([]);
    const files = new Set(await filesUnder('src'));
    expect(Object.keys(ALSO).filter((file) => !files.has(file))).toEqual([]);
  });

  it('so that inference and decision can be checked without the rest, and the rest replaced without them', async () => {
    const outwards: string[] = [];
    for (const file of (await filesUnder('src')).filter(isCode)) {
      const allowed = MAY_KNOW[partOf(file)];
      if (allowed === undefined) continue;
      for (const imported of importsOf(await read(file)).filter((one) => one.startsWith('.'))) {
        const target = partOf(join(dirname(file), imported).split(sep).join('/'));
        if (![partOf(file), ...allowed, ...(ALSO[file] ?? [])].includes(target))
          outwards.push(
            `${file} imports ${imported}: ${partOf(file)} may know ${allowed.join(', ') || 'nothing else'}`,
          );
      }
    }
    expect(outwards).toEqual([]);
  });

  it('and belief, decision, joints and survival know no clock, chance, disk, page or parser: the same input, the same answer, anywhere', async () => {
    const forbidden: readonly (readonly [RegExp, string])[] = [
      [/\bDate\b/, 'a clock: pass the time in'],
      [/\bperformance\./, 'a clock: measure in tests/bench'],
      [/\bMath\.random\b/, 'chance: pass a seeded generator in'],
      [/\bcrypto\b/, 'chance: pass a seeded generator in'],
      [/\bprocess\./, 'the process: pass what is needed in'],
      [/\bconsole\./, 'output: return a value'],
      [/\bJSON\./, 'JSON: parse at the boundary'],
      [/(?<![-\w])(window|document|navigator|localStorage|fetch)\s*[.(]/, 'the page: belongs to the wizard'],
    ];
    const found: string[] = [];
    for (const file of (await filesUnder('src')).filter(isCode)) {
      if (!PURE.includes(partOf(file))) continue;
      const code = await read(file);
      for (const [pattern, why] of forbidden)
        if (pattern.test(withoutComments(code))) found.push(`${file} uses ${pattern.source}, ${why}`);
      for (const imported of importsOf(code))
        if (!imported.startsWith('.')) found.push(`${file} imports ${imported}: plain numbers need no package`);
    }
    expect(found).toEqual([]);
  });

  it('and Node is met only at the edges, so that everything else runs in the browser', async () => {
    const found: string[] = [];
    for (const file of (await filesUnder('src')).filter(isCode)) {
      if (EDGES.test(file)) continue;
      for (const imported of importsOf(await read(file)))
        if (imported.startsWith('node:')) found.push(`${file} imports ${imported}`);
    }
    expect(found).toEqual([]);
  });

  it('and the wizard decides nothing: it never reaches past the assessment into inference or decision', async () => {
    const found: string[] = [];
    for (const file of (await filesUnder('src')).filter((one) => isCode(one) && partOf(one) === 'wizard'))
      for (const imported of importsOf(await read(file)).filter((one) => one.startsWith('.'))) {
        const target = partOf(join(dirname(file), imported).split(sep).join('/'));
        if (['belief', 'decision', 'joints', 'survival', 'cli', 'server', 'store'].includes(target))
          found.push(`${file} imports ${imported}`);
      }
    expect(found).toEqual([]);
  });

  it('and a relative import names the file it means, since nothing stands between the code and Node', async () => {
    const found: string[] = [];
    for (const file of (await filesUnder('src', 'tests')).filter(isCode))
      for (const imported of importsOf(await read(file)).filter((one) => one.startsWith('.')))
        if (!/\.(tsx?|mjs|css|json|html|svg)(\?\w+)?$/.test(imported)) found.push(`${file} imports ${imported}`);
    expect(found).toEqual([]);
  });
});

describe('The tree reads as a table of contents', () => {
  it('with every name in lower-case words joined by hyphens', async () => {
    const files = await filesUnder('src', 'rules', 'tests', 'cases');
    const odd = files.filter(
      (file) =>
        basename(file) !== 'README.md' &&
        file.split('/').some((part) => !/^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9-]+)*$/.test(part)),
    );
    expect(odd).toEqual([]);
  });

  it('with folders that say what the program is about, not what it is made of', async () => {
    const made = /^(utils?|helpers?|managers?|types|common|shared|misc|lib|core|services?)$/;
    const folders = new Set((await filesUnder('src', 'tests')).flatMap((file) => file.split('/').slice(0, -1)));
    expect([...folders].filter((folder) => made.test(folder))).toEqual([]);
  });
});

describe('Cards are described by class', () => {
  /** One letter in brackets each, so that this file does not name what it looks for. */
  const NAMES = [
    /\b(n[v]idia|g[e]force|q[u]adro|r[a]deon|a[m]d|i[n]tel|a[t]i)\b/i,
    /\b(a[s]us|m[s]i|e[v]ga|z[o]tac|p[o]wercolor|x[f]x|p[a]lit|g[a]inward|p[n]y|i[n]no3d|a[s]rock|g[i]gabyte(?!s)|s[a]pphire)\b/i,
    /\b(s[a]msung|h[y]nix|m[i]cron technology|e[l]pida|n[a]nya|t[s]mc|i[n]fineon|r[e]nesas|a[l]pha and omega)\b/i,
    /\b(f[l]uke|k[e]ysight|k[e]ithley|f[l]ir|h[a]kko|j[b]c|w[e]ller|r[i]gol|t[e]ktronix)\b/i,
    /\b(r[t]x|g[t]x|g[t]|r[x]|h[d])[ -]?\d{3,4}\b/i,
    /\b(G[AFKMPV]|T[U]|A[D]|G[B])[12]\d{2}\b/,
    /\b(n[a]vi|v[e]ga|p[o]laris|f[i]ji|h[a]waii) ?\d{2}\b/i,
  ];

  it('and never by a maker or a model, in code, rules, cases or pages', async () => {
    const top = (await readdir(ROOT, { withFileTypes: true }))
      .filter((entry) => entry.isFile())
      .map(({ name }) => name);
    const written = top.filter((name) => /\.(md|json|ts|html)$/.test(name) && name !== 'package-lock.json');
    const files = [...written, ...(await filesUnder('src', 'rules', 'tests', 'cases'))];
    const found: string[] = [];
    for (const file of files.filter((one) => /\.(md|json|tsx?|mjs|css|html|svg)$/.test(one))) {
      const text = await read(file);
      for (const pattern of NAMES) {
        const hit = pattern.exec(text);
        if (hit) found.push(`${file}: "${hit[0]}"`);
      }
    }
    expect(found).toEqual([]);
  });

  it('and the search would find one', () => {
    const invented = [
      ['n', 'vidia'],
      ['m', 'si'],
      ['s', 'amsung'],
      ['f', 'luke'],
      ['r', 'tx 1234'],
      ['G', 'A100'],
      ['n', 'avi 10'],
    ];
    for (const parts of invented) expect(NAMES.some((pattern) => pattern.test(`a ${parts.join('')} card`))).toBe(true);
  });
});

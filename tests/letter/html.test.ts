import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { escapeHtml } from '../../src/letter/escape.ts';
import { letterHtml } from '../../src/letter/html.ts';
import { writeLetter } from '../../src/letter/letter.ts';
import { ownerWordings } from '../../src/letter/owner-wordings.ts';
import { type Letter, PAPERS } from '../../src/letter/schema.ts';
import { knowledgeAndShop, workedCase } from '../assess/worked-cases.ts';
import { tellable } from './letters.ts';

let letters: Letter[];
let german: Letter;
beforeAll(async () => {
  const { knowledge, shop } = await knowledgeAndShop();
  const words = ownerWordings(knowledge);
  const told = async (id: string, language: 'en' | 'de' = 'en') => {
    const { record } = workedCase(id);
    const assessment = tellable(await assess(knowledge, shop, record, { draws: 20 }));
    return writeLetter(assessment, { shop, words, record, today: '2026-04-20', language });
  };
  letters = await Promise.all(
    ['one-memory-chip', 'ball-crack-on-a-cheap-card', 'card-is-fine-host-is-not', 'only-the-owners-words'].map((id) =>
      told(id),
    ),
  );
  german = await told('one-memory-chip', 'de');
});

/** Names of elements that are opened but not closed in order; empty for well-formed HTML. */
function unclosed(html: string): string[] {
  const open: string[] = [];
  const wrong: string[] = [];
  const body = html.replace(/<style>[\s\S]*?<\/style>/g, '').replace(/<!doctype html>/, '');
  for (const [, closing, name, rest] of body.matchAll(/<(\/?)([a-z][a-z0-9]*)((?:"[^"]*"|[^>"])*)>/gi)) {
    if (['meta', 'col', 'br'].includes(name!) || rest!.endsWith('/')) continue;
    if (closing === '') open.push(name!);
    else if (open.pop() !== name) wrong.push(name!);
  }
  return [...wrong, ...open];
}

describe('The page', () => {
  it('is one well-formed document that fetches nothing, runs nothing and says its language', () => {
    for (const letter of [...letters, german]) {
      const html = letterHtml(letter);
      expect(html.startsWith('<!doctype html>')).toBe(true);
      expect(html).toContain(`<html lang="${letter.language}">`);
      expect(unclosed(html)).toEqual([]);
      const outside = html.match(/(?:src|href|url)\s*[=(]\s*["']?(?!#)[^"')\s>]+/g) ?? [];
      expect(outside).toEqual([]);
      expect(html).not.toMatch(/<script|<link|<iframe|@import|\son\w+=/i);
      expect(html).not.toMatch(/undefined|null|NaN|\[object/);
    }
  });

  it('would be caught if it were not well formed', () => {
    expect(unclosed('<p><b>x</p></b>')).not.toEqual([]);
    expect(unclosed('<ul><li>x</ul>')).not.toEqual([]);
  });

  it('has one first heading, second ones below it, and table headers that say what they head', () => {
    for (const letter of letters) {
      const html = letterHtml(letter);
      expect(html.match(/<h1>/g)).toHaveLength(1);
      expect(html.match(/<h2>/g)!.length).toBeGreaterThan(5);
      expect(html.match(/<th scope="col">/g)).toHaveLength(5);
      expect(html.match(/<th scope="row">/g)).toHaveLength(letter.choices.length);
      expect(html.match(/<td>/g)).toHaveLength(4 * letter.choices.length);
    }
  });

  it('draws exactly 100 small cards, of each kind as many as it says in words beside them', () => {
    for (const letter of letters) {
      const html = letterHtml(letter);
      const parts = letter.outOf100;
      if (!parts) {
        expect(html).not.toContain('class="hundred"');
        continue;
      }
      const picture = /<svg class="hundred"[\s\S]*?<\/svg>/.exec(html)![0];
      const drawn = (kind: string) => picture.match(new RegExp(`<use href="#${kind}" `, 'g'))?.length ?? 0;
      expect([drawn('holds'), drawn('fails-again'), drawn('fails')]).toEqual([
        parts.holds,
        parts.failsAgain,
        parts.fails,
      ]);
      expect(picture).toContain(escapeHtml(parts.sentence));
    }
  });

  it('takes whatever a record or a shop is called as text, never as markup', () => {
    const [letter] = letters as [Letter];
    const nasty = `<img src=x onerror="alert('1')"> & "co"`;
    const html = letterHtml({
      ...letter,
      shop: nasty,
      cardTitle: nasty,
      cameIn: [nasty],
      found: { items: [{ ...letter.found.items[0]!, what: { text: nasty, language: 'en' } }], others: nasty },
      causes: letter.causes.map((cause) => ({ ...cause, what: { text: nasty, language: 'x"><script>' } })),
      choices: letter.choices.map((choice) => ({ ...choice, what: { text: nasty, language: 'en' } })),
      cautions: [{ id: 'some', what: { text: nasty, language: 'en' } }],
    });
    expect(html).not.toContain('<img');
    expect(html).not.toContain('<script');
    expect(html).not.toContain('"co"');
    expect(
      html.split('&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt; &amp; &quot;co&quot;').length,
    ).toBeGreaterThan(6);
  });

  it('marks what the rules say in English on a German page, and says so at its foot', () => {
    const html = letterHtml(german);
    const body = html.slice(html.indexOf('<body>'));
    expect(body).toContain(`<span lang="en">${escapeHtml(german.advised!.text)}</span>`);
    for (const { what } of german.causes) expect(body).toContain(`<span lang="en">${escapeHtml(what.text)}</span>`);
    expect(body).toContain(escapeHtml(german.languageNote!));
    expect(letterHtml(letters[0]!)).not.toContain('<span lang=');
  });

  it('is set for the paper it is meant for', () => {
    for (const paper of PAPERS) {
      const html = letterHtml({ ...letters[0]!, paper });
      expect(html).toContain(`@page{size:${paper === 'a4' ? 'A4' : 'letter'} portrait`);
    }
  });

  it('sets more words in smaller type, and never below eight points', () => {
    const [letter] = letters as [Letter];
    const points = (one: Letter) => Number(/:root\{font-size:([\d.]+)pt/.exec(letterHtml(one))![1]);
    const long = { ...letter, why: Array.from({ length: 30 }, () => letter.why[0]!) };
    const short = { ...letter, why: [], changes: [], cautions: [] };
    expect(points(long)).toBe(8);
    expect(points(short)).toBeGreaterThan(points(letter));
  });
});

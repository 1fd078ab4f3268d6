import { describe, expect, it } from 'vitest';
import { SITES } from '../../src/knowledge/schema.ts';
import { drawCard, shade } from '../../src/letter/card-drawing.ts';

const everywhere = SITES.map((site, at) => ({ site, chance: at / SITES.length, title: `${site}: ${at}0 of 100` }));

describe('The drawing of the card', () => {
  it('has every site once, each with its name, its chance and a fill of its own', () => {
    const svg = drawCard({ title: 'Where it is', sites: everywhere });
    for (const { site, chance, title } of everywhere) {
      const group = new RegExp(`<g class="site" id="card-${site}" data-site="${site}"[^>]*>`, 'g');
      const [found, ...more] = svg.match(group) ?? [];
      expect(more).toEqual([]);
      expect(found).toContain(`data-chance="${chance.toFixed(3)}"`);
      expect(found).toContain(`fill="${shade(chance)}"`);
      expect(svg).toContain(`<title>${title}</title>`);
    }
    expect(svg).toContain('role="img" aria-labelledby="card-title"');
    expect(svg).not.toContain('tabindex');
  });

  it('can be picked from, by keyboard and by screen reader, where it is asked to', () => {
    const svg = drawCard({ title: 'Where it is', sites: everywhere, prefix: 'here', pickable: true });
    expect(svg.match(/tabindex="0" role="button" aria-label="/g)).toHaveLength(SITES.length);
    expect(svg).toContain('role="group" aria-labelledby="here-title"');
    expect(svg.match(/id="here-/g)).toHaveLength(SITES.length + 1);
  });

  it('shades darker the likelier, in colour and in grey alike', () => {
    const grey = (colour: string) => {
      const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
      return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
    };
    const greys = Array.from({ length: 21 }, (_, at) => grey(shade(at / 20)));
    for (let at = 1; at < greys.length; at++) expect(greys[at]!).toBeLessThan(greys[at - 1]!);
    expect(greys[0]! - greys[20]!).toBeGreaterThan(120);
    expect([shade(-1), shade(2)]).toEqual([shade(0), shade(1)]);
  });

  it('marks what it is told to mark, and keeps strange titles as text', () => {
    const svg = drawCard({
      title: '<b>',
      sites: [{ site: 'memory', chance: 0.7, title: 'a "b" <c>', mark: '1' }],
    });
    expect(svg.match(/class="mark"/g)).toHaveLength(1);
    expect(svg).toContain('a &quot;b&quot; &lt;c&gt;');
    expect(svg).not.toContain('<b>');
  });

  it('draws a site as sound where next to nothing speaks for it', () => {
    const svg = drawCard({ title: 'x', sites: [{ site: 'board', chance: 0.004, title: 'board' }] });
    expect(svg).toMatch(/id="card-board" data-site="board" data-chance="0.004" fill="#fafbf8"/);
    expect(svg).not.toContain('data-likely');
  });
});

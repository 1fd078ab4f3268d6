/** Our own drawing of a graphics card, no real one's: sites shaded by how likely the fault is there. */
import type { Site } from '../knowledge/schema.ts';
import { escapeHtml } from './escape.ts';

export interface DrawnSite {
  readonly site: Site;
  readonly chance: number;
  /** what a pointer or a screen reader is told, such as "memory: 12 of 100" */
  readonly title: string;
  /** a short label drawn on the site, such as "1" */
  readonly mark?: string | undefined;
}

export interface Drawing {
  readonly title: string;
  readonly sites: readonly DrawnSite[];
  /** before every id, so that two drawings can stand in one page; default "card" */
  readonly prefix?: string;
  /** sites are buttons that can be focused and picked */
  readonly pickable?: boolean;
}

/** A site less likely than this is drawn as sound. */
const LEAST_CHANCE_SHADED = 0.01;

/**
 * SVG of the card. Every site is a `<g class="site" id="<prefix>-<site>" data-site="..." data-likely>` with a `<title>` and the
 * chance in `data-chance` (a style attribute would be refused wherever styles must come from a file); its shapes of class `shade` carry a fill that style sheets may replace. Drawn back to front: the computer, the board, what sits on it.
 */
export function drawCard({ title, sites, prefix = 'card', pickable = false }: Drawing): string {
  const known = new Map(sites.map((site) => [site.site, site]));
  const group = (site: Site, shapes: string) => {
    const drawn = known.get(site);
    const chance = drawn?.chance ?? 0;
    const likely = chance >= LEAST_CHANCE_SHADED;
    const label = escapeHtml(drawn?.title ?? site);
    const manner = pickable ? ` tabindex="0" role="button" aria-label="${label}"` : '';
    return (
      `<g class="site" id="${prefix}-${site}" data-site="${site}"${likely ? ' data-likely="true"' : ''}${manner}` +
      ` data-chance="${chance.toFixed(3)}" fill="${shade(likely ? chance : 0)}" stroke="${INK}" stroke-width="1.2">` +
      `<title>${label}</title>${shapes}</g>`
    );
  };
  const body = BACK_TO_FRONT.map((site) => group(site, SHAPES[site])).join('');
  const marks = BACK_TO_FRONT.flatMap((site) => {
    const mark = known.get(site)?.mark;
    return mark === undefined ? [] : [drawMark(site, mark)];
  }).join('');
  const role = pickable ? 'group' : 'img';
  return (
    `<svg class="card-drawing" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 340 196" role="${role}" aria-labelledby="${prefix}-title">` +
    `<title id="${prefix}-title">${escapeHtml(title)}</title>${body}${DETAILS}${marks}</svg>`
  );
}

const INK = '#1b2327';
const SOUND = [250, 251, 248];
const WARM = [242, 174, 36];
const HOT = [176, 78, 10];

/** From paper over the warm accent to rust: also its grey grows steadily darker, so that it reads in black and white. */
export function shade(chance: number): string {
  const [from, to, at] = chance < 0.5 ? [SOUND, WARM, chance * 2] : [WARM, HOT, chance * 2 - 1];
  const mixed = from.map((value, i) => Math.round(value + (to[i]! - value) * Math.min(1, Math.max(0, at))));
  return `#${mixed.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

const BACK_TO_FRONT: readonly Site[] = [
  'host',
  'board',
  'connectors',
  'cooling',
  'power',
  'memory',
  'firmware',
  'core-joints',
  'core-package',
  'earlier-rework',
];

const rect = (x: number, y: number, width: number, height: number, radius = 2, more = '') =>
  `<rect class="shade" x="${x}" y="${y}" width="${width}" height="${height}" rx="${radius}"${more}/>`;
const circle = (x: number, y: number, r: number, more = '') =>
  `<circle class="shade" cx="${x}" cy="${y}" r="${r}"${more}/>`;

const CORE = { x: 128, y: 62, size: 52 };

function ballsAroundCore(): string {
  const { x, y, size } = CORE;
  const out = 5;
  const balls: string[] = [];
  for (let i = 0; i <= 7; i++) {
    const along = (size + 2 * out) * (i / 7) - out;
    balls.push(circle(x + along, y - out, 3), circle(x + along, y + size + out, 3));
    if (i > 0 && i < 7) balls.push(circle(x - out, y + along, 3), circle(x + size + out, y + along, 3));
  }
  return balls.join('');
}

const MEMORY_CHIPS: readonly (readonly [number, number])[] = [
  [94, 50],
  [94, 74],
  [94, 98],
  [127, 34],
  [157, 34],
  [194, 50],
  [194, 74],
  [194, 98],
];

const SHAPES: Readonly<Record<Site, string>> = {
  // the slot and the board of the computer below, its screen to the left
  host:
    rect(24, 160, 292, 26, 4) +
    rect(72, 151, 128, 12, 2) +
    rect(4, 64, 24, 34, 2) +
    '<path d="M16 98v8M9 107h14" fill="none"/>',
  board:
    '<path class="shade" d="M52 28h256a6 6 0 0 1 6 6v100a6 6 0 0 1-6 6H196v12H78v-12H52a6 6 0 0 1-6-6V34a6 6 0 0 1 6-6z"/>',
  connectors:
    rect(40, 22, 7, 124, 2) +
    rect(34, 42, 14, 18, 2) +
    rect(34, 66, 14, 18, 2) +
    rect(34, 90, 14, 18, 2) +
    rect(258, 18, 34, 17, 3) +
    rect(82, 143, 110, 9, 1),
  cooling: circle(274, 98, 29),
  power: [222, 238].map((x) => [38, 56, 74, 92, 110].map((y) => rect(x, y, 12, 13, 2)).join('')).join(''),
  memory: MEMORY_CHIPS.map(([x, y]) => rect(x, y, 24, 17, 2)).join(''),
  firmware: rect(62, 116, 22, 13, 2),
  'core-joints': ballsAroundCore(),
  'core-package': rect(CORE.x, CORE.y, CORE.size, CORE.size, 3),
  // an iron over the corner of the board
  'earlier-rework':
    '<path class="shade" d="M56 26 74 6l7 6-20 18-9 4z"/><path d="m78 9 14-7" fill="none" stroke-width="4" stroke-linecap="round"/>',
};

/** Lines that belong to no site and only make the shapes recognisable. */
const DETAILS = (() => {
  const { x, y, size } = CORE;
  const fingers = Array.from({ length: 13 }, (_, i) => `M${89 + i * 8} 144v7`).join('');
  const pins = Array.from({ length: 4 }, (_, i) => `M${264 + i * 7.4} 22v8`).join('');
  const legs = [65, 70, 75, 80].map((at) => `M${at} 113v3M${at} 129v3`).join('');
  const blades = Array.from({ length: 7 }, (_, i) => {
    const angle = (i * 2 * Math.PI) / 7;
    const [ex, ey] = [274 + 25 * Math.cos(angle), 98 + 25 * Math.sin(angle)];
    const [bx, by] = [274 + 16 * Math.cos(angle - 0.5), 98 + 16 * Math.sin(angle - 0.5)];
    return `M274 98Q${bx.toFixed(1)} ${by.toFixed(1)} ${ex.toFixed(1)} ${ey.toFixed(1)}`;
  }).join('');
  return (
    `<g class="details" fill="none" stroke="${INK}" stroke-width="0.9" stroke-linecap="round" pointer-events="none" aria-hidden="true">` +
    `<path d="${fingers}${pins}${legs}${blades}"/><circle cx="274" cy="98" r="6"/>` +
    `<rect x="${x + 14}" y="${y + 14}" width="${size - 28}" height="${size - 28}" rx="1"/>` +
    `<circle cx="56" cy="40" r="3"/><circle cx="303" cy="130" r="3"/><circle cx="303" cy="40" r="3"/><circle cx="56" cy="130" r="3"/></g>`
  );
})();

/** Where a mark sits, beside what it marks and not upon it. */
const MARK_AT: Readonly<Record<Site, readonly [number, number]>> = {
  host: [300, 173],
  board: [210, 128],
  connectors: [275, 14],
  cooling: [300, 76],
  power: [236, 30],
  memory: [106, 40],
  firmware: [73, 104],
  'core-joints': [186, 122],
  'core-package': [154, 88],
  'earlier-rework': [98, 12],
};

function drawMark(site: Site, mark: string): string {
  const [x, y] = MARK_AT[site];
  const half = 9 + Math.max(0, mark.length - 1) * 3.4;
  return (
    `<g class="mark" pointer-events="none" aria-hidden="true"><rect x="${x - half}" y="${y - 9}" width="${2 * half}" height="18" rx="9" fill="${INK}" stroke="#fff" stroke-width="1.5"/>` +
    `<text x="${x}" y="${y + 4.2}" text-anchor="middle" fill="#fff" font-size="12" font-weight="700" font-family="sans-serif">${escapeHtml(mark)}</text></g>`
  );
}

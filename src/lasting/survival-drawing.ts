/** The product-limit curve of one remedy as SVG: steps, limits, who was lost sight of, the fitted law, how many were still followed. */
import { scaleLinear } from 'd3-scale';
import { area, curveStepAfter, line } from 'd3-shape';
import type { RemedyAnswer } from '../learning/answer.ts';
import { escapeHtml } from '../letter/escape.ts';

export interface SurvivalDrawing {
  readonly remedy: Pick<RemedyAnswer, 'steps' | 'law'>;
  /** read out in place of the picture */
  readonly title: string;
  readonly description: string;
  readonly words: { readonly ofHundred: string; readonly days: string; readonly followed: string };
  readonly number: (value: number) => string;
  /** before every id, so that two drawings can stand in one page */
  readonly prefix: string;
  /** in CSS pixels; the type keeps its size */
  readonly width: number;
}

type Step = RemedyAnswer['steps'][number];

const LEFT = 44;
const RIGHT = 18;
const TOP = 26;
const PLOT = 190;
/** from the axis down: days, their name, then who was still followed */
const DAYS_AT = 18;
const FOLLOWED_NAME_AT = 42;
const FOLLOWED_AT = 59;
const HEIGHT = TOP + PLOT + 66;
const TICK = 6;
const PIXELS_A_TICK = 64;
const LAW_POINTS = 96;
/** A shorter time is drawn on an axis of this many days, so that its days stay whole. */
const LEAST_SPAN_DAYS = 10;
/** A loss of less than half a card is the uncertain part of a comeback; the table has it. */
const LEAST_LOST_DRAWN = 0.5;
const INK = '#1b2327';
const SOFT = '#4d585c';
const LINE = '#c5ccc8';
const BAND = '#fdf0cf';
const HEAT = '#7a4a00';

/**
 * SVG of the steps of a remedy's answer. What stands for a figure carries it: `data-days`, `data-survival`, `data-followed`; shapes
 * have classes of their own (`lasting-curve`, `lasting-band`, `lasting-lost`, `lasting-law`, `lasting-followed`), so that a
 * style sheet may set their colours. No style attribute: the wizard refuses them.
 */
export function drawSurvival({ remedy, title, description, words, number, prefix, width }: SurvivalDrawing): string {
  const { steps, law } = remedy;
  const last = steps.at(-1)?.days ?? 0;
  const ticks = Math.max(2, Math.floor((width - LEFT - RIGHT) / PIXELS_A_TICK));
  const across = scaleLinear([0, Math.max(last, LEAST_SPAN_DAYS)], [LEFT, width - RIGHT]).nice(ticks);
  const up = scaleLinear([0, 1], [TOP + PLOT, TOP]);
  const floor = TOP + PLOT;
  const text = (className: string, x: number, y: number, anchor: 'start' | 'middle' | 'end', said: string, more = '') =>
    `<text class="${className}" x="${round(x)}" y="${round(y)}" text-anchor="${anchor}" font-size="12" fill="${SOFT}"${more}>${escapeHtml(said)}</text>`;
  const levels = up
    .ticks(5)
    .map(
      (share) =>
        `<path class="lasting-grid" d="M${LEFT} ${round(up(share))}H${width - RIGHT}" stroke="${LINE}" fill="none"/>` +
        text('lasting-level', LEFT - 6, up(share) + 4, 'end', number(100 * share)),
    );
  const days = across
    .ticks(ticks)
    .filter(Number.isInteger)
    .flatMap((day) => [
      `<path class="lasting-grid" d="M${round(across(day))} ${floor}v5" stroke="${SOFT}" fill="none"/>`,
      text('lasting-day', across(day), floor + DAYS_AT, 'middle', number(day)),
      text(
        'lasting-followed',
        across(day),
        floor + FOLLOWED_AT,
        'middle',
        number(followedAt(steps, day)),
        ` data-days="${day}" data-followed="${followedAt(steps, day)}"`,
      ),
    ]);
  const lost = steps
    .filter((step) => step.lost >= LEAST_LOST_DRAWN)
    .map(
      (step) =>
        `<path class="lasting-lost" data-days="${step.days}" d="M${round(across(step.days))} ${round(up(step.survival) - TICK)}v${2 * TICK}" stroke="${INK}" stroke-width="1.5" fill="none"/>`,
    );
  const drawn = { x: (step: Step) => round(across(step.days)), y: (step: Step) => round(up(step.survival)) };
  const curve = line<Step>(drawn.x, drawn.y).curve(curveStepAfter)(steps) ?? '';
  const band =
    area<Step>(
      drawn.x,
      (step) => round(up(step.low ?? 0)),
      (step) => round(up(step.high ?? 1)),
    )
      .defined(({ low, high }) => low !== null && high !== null)
      .curve(curveStepAfter)(steps) ?? '';
  return (
    `<svg class="lasting-drawing" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${HEIGHT}" width="${width}" height="${HEIGHT}" role="img" aria-labelledby="${prefix}-title ${prefix}-description">` +
    `<title id="${prefix}-title">${escapeHtml(title)}</title><desc id="${prefix}-description">${escapeHtml(description)}</desc>` +
    `<path class="lasting-band" d="${band}" fill="${BAND}" stroke="${HEAT}" stroke-width=".6"/>` +
    levels.join('') +
    days.join('') +
    text('lasting-name', 0, 12, 'start', words.ofHundred) +
    text('lasting-name', width - RIGHT, floor + FOLLOWED_NAME_AT, 'end', words.days) +
    text('lasting-name', LEFT, floor + FOLLOWED_NAME_AT, 'start', words.followed) +
    (law === null
      ? ''
      : `<path class="lasting-law" d="${lawLine(law, last, across, up)}" fill="none" stroke="${HEAT}" stroke-width="2" stroke-dasharray="7 4"/>`) +
    `<path class="lasting-curve" d="${curve}" fill="none" stroke="${INK}" stroke-width="2.2"/>` +
    lost.join('') +
    steps
      .filter(({ failed }) => failed > 0)
      .map(
        (step) =>
          `<circle class="lasting-failed" data-days="${step.days}" data-survival="${step.survival}" cx="${drawn.x(step)}" cy="${drawn.y(step)}" r="2.4" fill="${INK}"/>`,
      )
      .join('') +
    '</svg>'
  );
}

/** How many were followed up to just before a day. */
export function followedAt(steps: readonly Step[], day: number): number {
  return steps.find(({ days }) => days >= day)?.atRisk ?? 0;
}

/** exp(-(t / scale)^shape) */
export const lawAt = ({ shape, scaleDays }: NonNullable<RemedyAnswer['law']>, days: number): number =>
  Math.exp(-((days / scaleDays) ** shape));

/** Only as far as anybody was followed: beyond it the law would be a forecast. */
function lawLine(
  law: NonNullable<RemedyAnswer['law']>,
  last: number,
  across: (days: number) => number,
  up: (share: number) => number,
): string {
  const days = Array.from({ length: LAW_POINTS + 1 }, (_, at) => (last * at) / LAW_POINTS);
  return (
    line<number>(
      (day) => round(across(day)),
      (day) => round(up(lawAt(law, day))),
    )(days) ?? ''
  );
}

/** What a kind of line looks like, for the words beside the drawing. */
export function drawKey(kind: 'steps' | 'band' | 'lost' | 'law'): string {
  const shapes = {
    steps: `<path class="lasting-curve" d="M1 4h14v6h14" fill="none" stroke="${INK}" stroke-width="2.2"/>`,
    band: `<path class="lasting-band" d="M1 2h28v10h-28z" fill="${BAND}" stroke="${HEAT}" stroke-width=".6"/>`,
    lost: `<path class="lasting-curve" d="M1 7h28" fill="none" stroke="${INK}" stroke-width="2.2"/><path class="lasting-lost" d="M15 1v12" stroke="${INK}" stroke-width="1.5" fill="none"/>`,
    law: `<path class="lasting-law" d="M1 3q14 2 28 9" fill="none" stroke="${HEAT}" stroke-width="2" stroke-dasharray="7 4"/>`,
  };
  return `<svg class="lasting-key" viewBox="0 0 30 14" width="30" height="14" aria-hidden="true">${shapes[kind]}</svg>`;
}

const round = (value: number): number => Math.round(value * 100) / 100;

/** A card's life: what happened along a real time axis, and under it how likely each cause was after every event. */
import { area, curveStepAfter } from 'd3-shape';
import type { Lifeline, LifelinePoint } from '../../lifeline.ts';
import type { Catalogue } from '../catalogue.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { useWidth } from '../charts/use-width.ts';
import { formatTag, rulesLanguage } from '../language.ts';
import { sayDays, sayMinutes, sayPercent } from '../words.ts';
import { type LifeAxis, lifeAxis } from './life-axis.ts';
import { type Strip, soundStrip, stripsOf } from './life-strips.ts';
import { sayPoint } from './life-words.ts';
import { cameBackWords } from './words.ts';

const EDGE = 12;
const STRIP = 30;
const AXIS = 46;
const LINE = 30;
const STRIPS = 5;
/** A move smaller than this is not told. */
const LEAST_MOVE = 0.02;
const DAY_MINUTES = 1440;

interface Props {
  readonly life: Lifeline;
  readonly catalogue: Catalogue;
}

export function LifeDrawing({ life, catalogue }: Props) {
  const { life: words } = cameBackWords.value;
  const [ref, width] = useWidth<HTMLDivElement>(640);
  const { points } = life;
  const axis = lifeAxis(
    points.map(({ at }) => Date.parse(at)),
    { wanted: width - 2 * EDGE, least: 25, most: Math.max(60, width / 3), tail: Math.max(30, width / 8) },
  );
  const strips = [soundStrip(life, words.sound), ...stripsOf(life, STRIPS)];
  return (
    <figure class="life">
      <div class="life-scroll" ref={ref}>
        <div
          class="life-picture"
          role="img"
          aria-label={words.drawing(life.title)}
          style={{ width: `${axis.width + 2 * EDGE}px` }}
        >
          <Axis points={points} axis={axis} />
          {strips.map((strip) => (
            <StripRow strip={strip} axis={axis} key={strip.id} />
          ))}
        </div>
      </div>
      <p class="about">{words.rest}</p>
      <ol class="life-events">
        {points.map((point, at) => (
          <li key={point.events[0]} data-kind={point.kind}>
            <span class="life-number" aria-hidden="true">
              {at + 1}
            </span>
            <span>
              <b>{sayPoint(point, catalogue)}</b> <time dateTime={point.at}>{sayDate(point.at, catalogue)}</time>
              <Moved point={point} life={life} />
            </span>
          </li>
        ))}
      </ol>
      <LifeTable life={life} catalogue={catalogue} />
    </figure>
  );
}

function Axis({ points, axis }: { points: readonly LifelinePoint[]; axis: LifeAxis }) {
  const last = axis.width + EDGE;
  return (
    <svg
      class="life-axis"
      viewBox={`0 0 ${axis.width + 2 * EDGE} ${AXIS}`}
      width={axis.width + 2 * EDGE}
      height={AXIS}
      aria-hidden="true"
    >
      <path class="life-line" d={`M${EDGE} ${LINE}H${last}`} />
      {axis.spans.map(({ days, drawn }, at) => {
        const [from, to] = [EDGE + axis.places[at]!, EDGE + axis.places[at + 1]!];
        const middle = (from + to) / 2;
        const said = saySpan(days);
        return (
          <g key={points[at]!.events[0]}>
            {drawn === 'broken' && (
              <path class="life-break" d={`M${middle - 5} ${LINE + 6}l4 -12M${middle + 1} ${LINE + 6}l4 -12`} />
            )}
            {days >= 1 && to - from >= said.length * 6.2 + 4 && (
              <text class="life-span" x={middle} y={LINE - 15} text-anchor="middle">
                {said}
              </text>
            )}
          </g>
        );
      })}
      {points.map(({ kind, events }, at) => (
        <g
          class="life-mark"
          data-kind={kind}
          transform={`translate(${EDGE + axis.places[at]!} ${LINE})`}
          key={events[0]}
        >
          {kind === 'treated' ? <rect x="-10" y="-10" width="20" height="20" rx="2" /> : <circle r="10" />}
          <text text-anchor="middle" y="4">
            {at + 1}
          </text>
        </g>
      ))}
    </svg>
  );
}

interface Step {
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

function StripRow({ strip, axis }: { strip: Strip; axis: LifeAxis }) {
  const steps = (from: readonly (number | null)[], more: readonly (number | null)[]): readonly (Step | null)[] => {
    const all = axis.places.map((place, at) => {
      const [below, above] = [from[at], more[at]];
      return below == null || above == null ? null : { x: EDGE + place, from: below, to: below + above };
    });
    const last = all.at(-1);
    return [...all, last ? { ...last, x: axis.width + EDGE } : null];
  };
  const zero = strip.active.map((chance) => (chance === null ? null : 0));
  const shape = area<Step | null>()
    .defined((step) => step !== null)
    .x((step) => step!.x)
    .y0((step) => STRIP * (1 - step!.from))
    .y1((step) => STRIP * (1 - Math.min(1, step!.to)))
    .curve(curveStepAfter);
  return (
    <div class="life-row" data-what={strip.id === 'sound' ? 'sound' : 'fault'}>
      <p>
        <span lang={strip.id === 'sound' ? undefined : rulesLanguage.value}>{strip.name}</span>{' '}
        <b>{sayPercent(strip.now)}</b>
      </p>
      <svg
        viewBox={`0 -1 ${axis.width + 2 * EDGE} ${STRIP + 2}`}
        width={axis.width + 2 * EDGE}
        height={STRIP + 2}
        aria-hidden="true"
      >
        <defs>
          <pattern
            id={`asleep-${strip.id}`}
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <path class="life-hatch" d="M1 0v6" />
          </pattern>
        </defs>
        <path class="life-frame" d={`M${EDGE} 0H${axis.width + EDGE}M${EDGE} ${STRIP}H${axis.width + EDGE}`} />
        {axis.places.map((place) => (
          <path class="life-guide" d={`M${EDGE + place} 0v${STRIP}`} key={place} />
        ))}
        <path class="life-active" d={shape(steps(zero, strip.active)) ?? ''} />
        <path
          class="life-masked"
          d={shape(steps(strip.active, strip.masked)) ?? ''}
          style={{ fill: `url(#asleep-${strip.id})` }}
        />
      </svg>
    </div>
  );
}

function Moved({ point, life }: { point: LifelinePoint; life: Lifeline }) {
  const said = sayMove(point, life);
  if (point.contradiction !== null) return <small lang={rulesLanguage.value}>{point.contradiction}</small>;
  return said === null ? null : <small>{said}</small>;
}

function sayMove({ mover }: LifelinePoint, { faults }: Lifeline): string | null {
  const { life: words } = cameBackWords.value;
  if (mover === null || Math.abs(mover.to - mover.from) < LEAST_MOVE) return null;
  const name =
    mover.what === 'sound' ? words.sound : (faults.find(({ fault }) => fault === mover.what)?.name ?? mover.what);
  return words.movedTo(name, sayPercent(mover.from), sayPercent(mover.to));
}

function LifeTable({ life, catalogue }: Props) {
  const { life: words } = cameBackWords.value;
  const shown = stripsOf(life, STRIPS);
  const figure = (active: number | null | undefined, masked: number | null | undefined) => {
    if (active == null) return '–';
    return (masked ?? 0) >= 0.005 ? words.masked(sayPercent(active), sayPercent(masked!)) : sayPercent(active);
  };
  const likeliest = (at: number) =>
    shown
      .filter(({ active, masked }) => (active[at] ?? 0) + (masked[at] ?? 0) >= LEAST_MOVE)
      .toSorted((a, b) => (b.active[at] ?? 0) - (a.active[at] ?? 0))
      .map(({ id, name, active, masked }) => (
        <li key={id}>
          <span lang={rulesLanguage.value}>{name}</span>: {figure(active[at], masked[at])}
        </li>
      ));
  return (
    <InFigures
      title={words.inFigures}
      columns={[{ name: words.what }, { name: words.likely }, { name: words.moved }]}
      rows={life.points.map((point, at) => [
        <>
          {sayPoint(point, catalogue)}, {sayDate(point.at, catalogue)}
        </>,
        point.contradiction === null ? (
          <ul>
            {likeliest(at)}
            <li>
              {words.sound}: {figure(point.sound, point.soundButMasked)}
            </li>
          </ul>
        ) : (
          words.contradicts
        ),
        sayMove(point, life) ?? words.nothingMoved,
      ])}
    />
  );
}

const sayDate = (iso: string, { shop }: Catalogue): string =>
  new Intl.DateTimeFormat(formatTag(shop.locale), { day: 'numeric', month: 'short', year: 'numeric' }).format(
    new Date(iso),
  );

const saySpan = (days: number): string => (days >= 1 ? sayDays(Math.round(days)) : sayMinutes(days * DAY_MINUTES));

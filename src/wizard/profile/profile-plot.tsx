/** A judged profile: temperature over time of every channel, the levels of its window across it, the peaks marked. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { ProfileAnswer } from '../../knowledge/profile-answer.ts';
import { cameBackWords } from '../came-back/words.ts';
import { useWidth } from '../charts/use-width.ts';
import { sayNumber } from '../words.ts';

export type JudgedLog = Extract<ProfileAnswer, { kind: 'judged' }>;

const HEIGHT = 260;
const TOP = 14;
const BOTTOM = 26;
const LEFT = 40;
const RIGHT = 12;
const MINUTE = 60;

export function ProfilePlot({ judged }: { readonly judged: JudgedLog }) {
  const { profile: words } = cameBackWords.value;
  const [ref, width] = useWidth<HTMLDivElement>(640);
  const { curve, window, heats } = judged;
  const { soakFrom, soakTo, liquidus, ceiling } = window.levels;
  const known = curve.channels.flatMap(({ celsius }) => celsius.filter((value) => value !== null));
  const across = scaleLinear([curve.seconds[0] ?? 0, curve.seconds.at(-1) ?? 1], [LEFT, width - RIGHT]);
  const up = scaleLinear(
    [Math.min(20, ...known), Math.max(liquidus + 20, (ceiling ?? 0) + 10, ...known)],
    [HEIGHT - BOTTOM, TOP],
  ).nice();
  const minutes = scaleLinear(
    across.domain().map((seconds) => seconds / MINUTE),
    across.range(),
  ).ticks(Math.max(2, Math.floor(width / 90)));
  const levels = [
    { name: words.liquidus, at: liquidus, kind: 'liquidus' },
    ...(ceiling === undefined ? [] : [{ name: words.ceiling, at: ceiling, kind: 'ceiling' }]),
  ];
  return (
    <div class="profile-plot" ref={ref}>
      <svg viewBox={`0 0 ${width} ${HEIGHT}`} width={width} height={HEIGHT} role="img" aria-label={words.drawing}>
        <rect
          class="profile-soak"
          x={LEFT}
          y={up(soakTo)}
          width={Math.max(0, width - LEFT - RIGHT)}
          height={up(soakFrom) - up(soakTo)}
        />
        <text class="profile-level-name" x={width - RIGHT - 4} y={up(soakFrom) - 4} text-anchor="end">
          {words.soak}
        </text>
        {up.ticks(5).map((tick) => (
          <g class="profile-tick" key={tick}>
            <path d={`M${LEFT} ${up(tick)}H${width - RIGHT}`} />
            <text x={LEFT - 6} y={up(tick) + 4} text-anchor="end">
              {sayNumber(tick)}
            </text>
          </g>
        ))}
        <text class="profile-unit" x={LEFT - 6} y={TOP - 2} text-anchor="end">
          °C
        </text>
        {minutes.map((tick) => (
          <text class="profile-minute" x={across(tick * MINUTE)} y={HEIGHT - 8} text-anchor="middle" key={tick}>
            {sayNumber(tick)}
            {tick === minutes.at(-1) && ` ${words.minutes}`}
          </text>
        ))}
        {levels.map(({ name, at, kind }) => (
          <g class="profile-level" data-kind={kind} key={kind}>
            <path d={`M${LEFT} ${up(at)}H${width - RIGHT}`} />
            <text class="profile-level-name" x={LEFT + 5} y={up(at) - 4}>
              {name} {sayNumber(at)} °C
            </text>
          </g>
        ))}
        {curve.channels.map(({ name, celsius }, channel) => (
          <path
            class="profile-curve"
            data-channel={channel % 4}
            d={
              line<number | null>()
                .defined((value) => value !== null)
                .x((_, at) => across(curve.seconds[at]!))
                .y((value) => up(value!))(celsius) ?? ''
            }
            key={name}
          />
        ))}
        {heats.map(({ channel, heat, peakAt, measures, grade }) => {
          const peak = measures.peak;
          if (peak?.kind !== 'measured') return null;
          return (
            <circle
              class="profile-peak"
              data-grade={grade}
              cx={across(peakAt)}
              cy={up(peak.value)}
              r="4"
              key={`${channel}-${heat}`}
            />
          );
        })}
      </svg>
      {curve.channels.length > 1 && (
        <ul class="profile-legend">
          {curve.channels.map(({ name }, channel) => (
            <li key={name}>
              <svg viewBox="0 0 30 8" aria-hidden="true">
                <path class="profile-curve" data-channel={channel % 4} d="M1 4h28" />
              </svg>
              {name}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

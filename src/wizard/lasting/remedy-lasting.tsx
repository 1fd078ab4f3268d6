import type { Messages } from '../../lasting/messages/messages.ts';
import { legendOf, type RemedyTold } from '../../lasting/told.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { useWidth } from '../charts/use-width.ts';
import { rulesLanguage } from '../language.ts';

interface Props {
  readonly told: RemedyTold;
  readonly messages: Messages;
}

/** One repair: how often it was done, its curve, what the curve says of some days, and the curve as a table. */
export function RemedyLasting({ told, messages }: Props) {
  const { table } = messages;
  const numbers = [table.followed, table.failed, table.lost, table.working, table.limits];
  return (
    <section class="repair">
      <h2 lang={rulesLanguage.value}>{told.name}</h2>
      <ul class="repair-counts">
        {told.counts.map((count) => (
          <li key={count}>{count}</li>
        ))}
      </ul>
      {told.doubt !== null && <p class="repair-doubt">{told.doubt}</p>}
      {told.drawing !== null && (
        <>
          <Curve told={told} draw={told.drawing} messages={messages} />
          <ul class="repair-points">
            {told.points.map((point) => (
              <li key={point}>{point}</li>
            ))}
            <li>{told.law.says}</li>
          </ul>
          {told.notes.map((note) => (
            <p class="about" key={note}>
              {note}
            </p>
          ))}
          <InFigures
            title={`${table.title}: ${told.name}`}
            columns={[{ name: table.day }, ...numbers.map((name) => ({ name, number: true }))]}
            rows={told.rows}
          />
        </>
      )}
    </section>
  );
}

interface CurveProps extends Props {
  readonly draw: (width: number) => string;
}

function Curve({ told, draw, messages }: CurveProps) {
  const [ref, width] = useWidth<HTMLDivElement>(640);
  return (
    <figure class="repair-figure">
      <div ref={ref} dangerouslySetInnerHTML={{ __html: draw(width) }} />
      <figcaption>
        <ul class="repair-legend">
          {legendOf(told, messages).map(({ key, says }) => (
            <li key={says}>
              <span dangerouslySetInnerHTML={{ __html: key }} />
              {says}
            </li>
          ))}
        </ul>
      </figcaption>
    </figure>
  );
}

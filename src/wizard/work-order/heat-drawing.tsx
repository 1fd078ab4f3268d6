import type { HeatLine } from '../../work-order/schema.ts';
import { rulesLanguage } from '../language.ts';
import { workWords } from './words.ts';

type Cell = 'spent' | 'takes' | 'beyond' | 'free';

/** One cell for a pass: what is spent, what this work takes, what goes beyond what was tested, what is left. */
export function cellsOf({
  most,
  spent,
  takes,
}: Pick<HeatLine['allowances'][number], 'most' | 'spent' | 'takes'>): Cell[] {
  return Array.from({ length: Math.max(most, spent + takes) }, (_, at) => {
    if (at < spent) return at < most ? 'spent' : 'beyond';
    if (at < spent + takes) return at < most ? 'takes' : 'beyond';
    return 'free';
  });
}

export function HeatDrawing({ heat }: { readonly heat: HeatLine }) {
  const { order: words } = workWords.value;
  const drawn = heat.allowances.map((allowance) => ({ ...allowance, cells: cellsOf(allowance) }));
  const kinds = (['spent', 'takes', 'beyond', 'free'] as const).filter((kind) =>
    drawn.some(({ cells }) => cells.includes(kind)),
  );
  return (
    <div class="heat-left">
      {drawn.map(({ id, most, spent, takes, leftAfter, cells }) => (
        <div class="heat-row" key={id} data-beyond={leftAfter < 0}>
          <span class="heat-name">{words.allowances[id]}</span>
          <span class="heat-cells" aria-hidden="true">
            {cells.map((kind, at) => (
              <span key={at} data-kind={kind} data-last={at === most - 1 && cells.length > most} />
            ))}
          </span>
          <small>
            {words.spent(spent, most)}, {words.takes(takes)},{' '}
            <b>{leftAfter < 0 ? words.beyond(-leftAfter) : words.left(leftAfter)}</b>
          </small>
        </div>
      ))}
      <p class="heat-key" aria-hidden="true">
        {kinds.map((kind) => (
          <span key={kind}>
            <span class="heat-cells">
              <span data-kind={kind} />
            </span>{' '}
            {words.heatKey[kind]}
          </span>
        ))}
      </p>
      <p class="about" lang={rulesLanguage.value}>
        {heat.words.join(' ')}
      </p>
    </div>
  );
}

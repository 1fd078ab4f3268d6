/** The part about the balls, folded away until it is wanted and loaded when it is first opened. */
import { useState } from 'preact/hooks';
import type { WorkOrder } from '../../work-order/schema.ts';
import { later } from '../frame/later.tsx';
import { sayNumber } from '../words.ts';
import { workWords } from './words.ts';

const BallsPart = later(async () => (await import('../balls/balls-part.tsx')).BallsPart);

export function BallsFold({ order: { balls, solder } }: { readonly order: WorkOrder }) {
  const { balls: words } = workWords.value;
  const [opened, setOpened] = useState(false);
  if (balls === null) return null;
  const shape = balls.joint?.shape ?? null;
  const say = (value: number) => sayNumber(value, { maximumFractionDigits: 3 });
  return (
    <details class="order-folded balls-fold" onToggle={({ currentTarget }) => currentTarget.open && setOpened(true)}>
      <summary>
        <h2>{words.heading}</h2>{' '}
        <small>
          {shape === null
            ? words.nothing
            : words.short(
                say(shape.standOffMillimetres),
                shape.neighbour === null ? null : say(shape.neighbour.gapMillimetres),
              )}
        </small>
      </summary>
      {opened && <BallsPart balls={balls} alloy={solder?.alloy ?? null} />}
    </details>
  );
}

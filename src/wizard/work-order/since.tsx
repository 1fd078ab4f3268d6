import { useEffect, useState } from 'preact/hooks';
import type { StepRecord } from '../../record/schema.ts';
import type { WorkOrder } from '../../work-order/schema.ts';
import { sayMinutes } from '../words.ts';
import { workWords } from './words.ts';

const TICK_MS = 20_000;
const MINUTE_MS = 60_000;

interface Props {
  readonly recorded: readonly StepRecord[];
  readonly minutes: WorkOrder['minutes'];
}

/** How long ago the last hold point was recorded, and the whole beside its estimate. */
export function Since({ recorded, minutes }: Props) {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    setNow(Date.now());
    const ticking = setInterval(() => setNow(Date.now()), TICK_MS);
    return () => clearInterval(ticking);
  }, [recorded.length]);
  const [first, last] = [recorded[0], recorded.at(-1)];
  if (first === undefined || last === undefined) return null;
  const { since: words } = workWords.value;
  const ago = (at: string) => (now - Date.parse(at)) / MINUTE_MS;
  return (
    <span class="hold-since">
      {ago(last.at) < 1 ? words.lastNow : words.last(sayMinutes(ago(last.at)))}
      <small>
        {ago(first.at) >= 1 && `${words.all(sayMinutes(ago(first.at)))}, `}
        {words.estimate(sayMinutes(minutes.low), sayMinutes(minutes.high))}
      </small>
    </span>
  );
}

import { LockMark } from '../frame/marks.tsx';
import { messages, rulesLanguage } from '../language.ts';
import type { Gate } from './power.ts';

interface Props {
  readonly gate: Gate;
  readonly onAnyway: () => void;
}

/** Why the questions below wait, and the way past for what was seen before the card came to this bench. */
export function ClosedGate({ gate, onAnyway }: Props) {
  return (
    <div class="gate">
      <p class="gate-reasons">
        <LockMark />
        <span lang={rulesLanguage.value}>{gate.reasons.join(' ')}</span>
      </p>
      <button type="button" class="quiet" onClick={onAnyway}>
        {messages.value.gates.doneAlready}
      </button>
    </div>
  );
}

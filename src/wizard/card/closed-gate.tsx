import type { Catalogue } from '../catalogue.ts';
import { LockMark } from '../frame/marks.tsx';
import { messages, rulesLanguage } from '../language.ts';
import type { Gate } from './power.ts';
import { ReasonWords } from './reason-words.tsx';

interface Props {
  readonly gate: Gate;
  readonly catalogue: Catalogue;
  readonly onAnyway: () => void;
}

/** Why the questions below wait, and the way past for what was seen before the card came to this bench. */
export function ClosedGate({ gate, catalogue, onAnyway }: Props) {
  return (
    <div class="gate">
      <p class="gate-reasons">
        <LockMark />
        <span lang={rulesLanguage.value}>
          <ReasonWords text={gate.reasons.join(' ')} catalogue={catalogue} />
        </span>
      </p>
      <button type="button" class="quiet" onClick={onAnyway}>
        {messages.value.gates.doneAlready}
      </button>
    </div>
  );
}

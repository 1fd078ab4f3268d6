/** Whether power is allowed yet, as the assessment's gates say it. */
import type { Assessment } from '../../assessment.ts';
import type { CheckView } from '../catalogue.ts';
import { messages } from '../language.ts';

export interface Gate {
  readonly open: boolean;
  readonly reasons: readonly string[];
}

const OPEN: Gate = { open: true, reasons: [] };

/** A check that powers the card stays shut until an assessment opens it. */
export function gateOf(check: CheckView | null, assessment: Assessment | null): Gate {
  if (check === null) return OPEN;
  if (assessment === null || assessment.kind !== 'assessed') {
    return check.powers ? { open: false, reasons: [messages.value.gates.notWeighed] } : OPEN;
  }
  const advice = assessment.checks.find((one) => one.check === check.id);
  return advice?.state === 'closed' ? { open: false, reasons: advice.reasons } : OPEN;
}

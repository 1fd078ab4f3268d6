import type { Assessment } from '../../assessment.ts';
import type { CheckView } from '../catalogue.ts';

/** The minutes of a check at this card, setting up included; its own alone until the card has been weighed. */
export function checkMinutes({ id, minutes }: CheckView, assessment: Assessment | null): number {
  if (assessment?.kind !== 'assessed') return minutes;
  return assessment.checks.find(({ check }) => check === id)?.minutes ?? minutes;
}

/** Keys that answer a hold point wherever the keyboard stands in it. */
import type { StepRecord } from '../../record/schema.ts';

const OUTCOMES: { readonly [key: string]: StepRecord['outcome'] } = { '1': 'passed', '2': 'failed', '3': 'left-out' };
/** There a digit is text, or answers the question. */
const KEEPS_DIGITS = 'input:not([type="radio"]):not([type="checkbox"]), textarea, select, fieldset.question';

/** Null: the key was not meant for the outcome. One that is held down is meant once. */
export function outcomeOf(event: KeyboardEvent): StepRecord['outcome'] | null {
  const { target, key } = event;
  if (event.repeat || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return null;
  if (!(target instanceof Element) || target.closest(KEEPS_DIGITS) !== null) return null;
  return OUTCOMES[key] ?? null;
}

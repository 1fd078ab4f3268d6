/** Moving the eye and the keyboard to a question, also across steps. */
import type { Session } from '../session.ts';
import type { StepId } from '../steps.ts';

const calm = (): ScrollBehavior => (matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth');

/** The field of a question that the keyboard should stand on: what is chosen, else the first that can be. */
function fieldOf(question: Element): HTMLElement | null {
  return (
    question.querySelector<HTMLElement>('input:checked:not(:disabled)') ??
    question.querySelector<HTMLElement>('input:not(:disabled), select:not(:disabled), textarea, button, a[href]')
  );
}

export function standOn(question: Element): void {
  const folded = question.closest('details:not([open])');
  if (folded instanceof HTMLDetailsElement) folded.open = true;
  fieldOf(question)?.focus({ preventScroll: true });
  question.scrollIntoView({ block: 'center', behavior: calm() });
}

const questions = (): Element[] =>
  [...document.querySelectorAll('main [data-question]')].filter(
    (question) => question.checkVisibility() && fieldOf(question) !== null,
  );

/** A step is drawn a moment after it was asked for. */
export function onceDrawn(act: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(act));
}

export function jumpTo(session: Session, step: StepId, key?: string): void {
  session.go(step);
  onceDrawn(() => {
    const target = key === undefined ? null : document.getElementById(key);
    if (target !== null) standOn(target);
    else standOnHeading();
  });
}

export function standOnHeading(): void {
  document.querySelector<HTMLElement>('main h1')?.focus({ preventScroll: true });
  scrollTo({ top: 0 });
}

export function standOnFirst(): void {
  const first = questions()[0];
  if (first === undefined) standOnHeading();
  else {
    scrollTo({ top: 0 });
    fieldOf(first)?.focus({ preventScroll: true });
  }
}

/** The neighbour of the question that holds the keyboard; false at the end of the step. */
export function standOnNeighbour(within: Element, by: 1 | -1): boolean {
  const all = questions();
  const here = within.closest('[data-question]');
  const next = here === null ? undefined : all[all.indexOf(here) + by];
  if (next === undefined) return false;
  standOn(next);
  return true;
}

/** Moving the eye and the keyboard to a question, also across steps. */
import { computed, type ReadonlySignal } from '@preact/signals';
import type { Session } from '../session.ts';
import type { StepId } from '../steps.ts';
import { partsComing } from './later.tsx';

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
  standIn(fieldOf(question));
  question.scrollIntoView({ block: 'center' });
}

/** As Tab does: what stands in a text field is chosen, and typing takes its place instead of going on behind it. */
function standIn(field: HTMLElement | null): void {
  field?.focus({ preventScroll: true });
  if (field instanceof HTMLInputElement && field.type === 'text') field.select();
}

const questions = (): Element[] =>
  [...document.querySelectorAll('main [data-question]')].filter(
    (question) => question.checkVisibility() && fieldOf(question) !== null,
  );

/** A step is drawn a moment after it was asked for, or after what it is made of has been loaded. */
export function onceDrawn(act: () => void): void {
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      if (partsComing.peek() === 0) act();
      else onceThere(allThere, () => onceDrawn(act));
    }),
  );
}

const allThere = computed(() => (partsComing.value === 0 ? true : null));

/** Acts as soon as `found` has something to say, now if it has. */
export function onceThere<Value>(found: ReadonlySignal<Value | null>, act: () => void): void {
  const stop = found.subscribe((value) => {
    if (value === null) return;
    // the first call comes before there is anything to stop
    queueMicrotask(() => stop());
    act();
  });
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
    standIn(fieldOf(first));
  }
}

/**
 * The neighbour of the question that holds the keyboard; false at the end of the step. In a table the neighbour is the one
 * below, as a column of readings is taken; the column of known-good readings is entered by hand only.
 */
export function standOnNeighbour(within: Element, by: 1 | -1): boolean {
  const all = inColumns(questions());
  const here = within.closest('[data-question]');
  if (here === null) return false;
  const fits = (question: Element) => !isAside(question) || columnOf(question) === columnOf(here);
  for (let i = all.indexOf(here) + by; i >= 0 && i < all.length; i += by) {
    const next = all[i]!;
    if (!fits(next)) continue;
    standOn(next);
    return true;
  }
  return false;
}

const columnOf = (question: Element): string | undefined => (question as HTMLElement).dataset.column;
const isAside = (question: Element): boolean => columnOf(question) === 'known-good';

/** Cells of a table column by column; everything else where it stands. */
function inColumns(all: readonly Element[]): readonly Element[] {
  const first = all.findIndex((question) => columnOf(question) !== undefined);
  if (first < 0) return all;
  const cells = all.filter((question) => columnOf(question) !== undefined);
  const columns = [...Map.groupBy(cells, columnOf).values()].flat();
  const rest = all.filter((question) => columnOf(question) === undefined);
  return rest.toSpliced(first, 0, ...columns);
}

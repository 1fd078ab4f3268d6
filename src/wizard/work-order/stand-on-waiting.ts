/** Where the keyboard stands while the work goes on. */
import { standOn } from '../frame/jump.ts';

/** On the name of what waits, so that it is read out and answered next. */
export function standOnWaiting(): void {
  const name = document.querySelector<HTMLElement>('.hold-point .hold-name');
  name?.focus({ preventScroll: true });
  (document.querySelector('.stopped') ?? name?.closest('.hold-point'))?.scrollIntoView({ block: 'start' });
}

/** Enter on the name goes to the first question below it; true: it was meant for that. */
export function enterFromName(event: KeyboardEvent): boolean {
  const { target } = event;
  if (event.key !== 'Enter' || !(target instanceof HTMLHeadingElement)) return false;
  const first = target.closest('.hold-point')?.querySelector('[data-question]');
  event.preventDefault();
  event.stopPropagation();
  if (first) standOn(first);
  return true;
}

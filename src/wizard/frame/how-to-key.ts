/** One keystroke to how a check is done safely, and back to the question it was asked from. */

export const HOW_TO_KEY = 'H';

/** Heard only while the keyboard is on a question or on a procedure; in a field that takes text, with Alt. */
const WHERE = '[data-question], .how-to, .test > summary';

/** Where the keyboard was when a procedure was opened. */
let cameFrom: HTMLElement | null = null;

/** True: the key was meant for a procedure. */
export function toggleHowTo(event: KeyboardEvent): boolean {
  const { target } = event;
  if (!(target instanceof HTMLElement) || event.code !== 'KeyH' || event.ctrlKey || event.metaKey) return false;
  if (takesText(target) && !event.altKey) return false;
  const place = target.closest(WHERE);
  const howTo = place && howToOf(place);
  if (!howTo) return false;
  howTo.open = !howTo.open;
  if (howTo.open) {
    cameFrom = target;
    howTo.querySelector('summary')?.focus({ preventScroll: true });
    howTo.scrollIntoView({ block: 'nearest' });
  } else if (howTo.contains(target) && cameFrom?.isConnected) {
    cameFrom.focus({ preventScroll: true });
    cameFrom.scrollIntoView({ block: 'nearest' });
  }
  return true;
}

const takesText = (target: HTMLElement): boolean =>
  target instanceof HTMLSelectElement ||
  (target instanceof HTMLInputElement && !['radio', 'checkbox', 'button'].includes(target.type));

function howToOf(place: Element): HTMLDetailsElement | null {
  const own = place.closest<HTMLDetailsElement>('details.how-to');
  if (own !== null) return own;
  const near = place.closest('.procedure, .test')?.querySelector<HTMLDetailsElement>('details.how-to');
  if (near) return near;
  const all = [...document.querySelectorAll<HTMLDetailsElement>('.how-tos > details.how-to')];
  const powered = (place as HTMLElement).dataset.column === 'voltage';
  return (powered ? all.at(-1) : all[0]) ?? null;
}

/** Where the wizard stands, kept in the part of the address after `#` so that reload and back work without a server's help. */
import { signal } from '@preact/signals';
import { isStep, type StepId } from './steps.ts';

export type Place =
  | { readonly screen: 'bench' }
  /** how long the shop's own repairs last */
  | { readonly screen: 'repairs' }
  | { readonly screen: 'card'; readonly id: string; readonly step: StepId }
  /** a worked case, not yet made one's own by an answer */
  | { readonly screen: 'case'; readonly id: string; readonly step: StepId };

const ID = /^[a-z0-9]+(-[a-z0-9]+)*$/;

export function readPlace(hash: string): Place {
  const [screen, id = '', step] = hash.replace(/^#\/?/, '').split('/');
  if (screen === 'repairs') return { screen };
  if ((screen !== 'card' && screen !== 'case') || !ID.test(id)) return { screen: 'bench' };
  return { screen, id, step: isStep(step) ? step : 'card' };
}

export function writePlace(place: Place): string {
  if (place.screen === 'bench') return '#/';
  return place.screen === 'repairs' ? '#/repairs' : `#/${place.screen}/${place.id}/${place.step}`;
}

/** The card that is open there; null: none is. */
export const openCard = (place: Place): Exclude<Place, { screen: 'bench' | 'repairs' }> | null =>
  place.screen === 'card' || place.screen === 'case' ? place : null;

export const place = signal<Place>({ screen: 'bench' });

export function followAddress(): void {
  const read = () => {
    place.value = readPlace(location.hash);
  };
  addEventListener('hashchange', read);
  read();
}

export function goTo(next: Place, how: 'push' | 'replace' = 'push'): void {
  const address = writePlace(next);
  if (how === 'replace') history.replaceState(null, '', address);
  else history.pushState(null, '', address);
  place.value = next;
}

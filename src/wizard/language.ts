/** The language of the interface: the one chosen on this device, else the first of the browser's that there is a catalogue for. */
import { computed, signal } from '@preact/signals';
import { de } from './messages/de.ts';
import { en, type Messages } from './messages/en.ts';

export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

const CATALOGUES: { readonly [language in Language]: Messages } = { en, de };
const KEY = 'worth-the-heat.language';

export const language = signal<Language>('en');

/** Read it where it is shown: what reads it follows the switch. */
export const messages = computed<Messages>(() => CATALOGUES[language.value]);

/** The language of a tag such as `de-AT`; undefined where there is no catalogue for it. */
const languageOf = (tag: string | null): Language | undefined =>
  LANGUAGES.find((known) => tag === known || tag?.startsWith(`${known}-`));

/** The tag Intl formats with: the first of these that is of the chosen language, so that an Irish bench keeps its Irish dates. */
export function formatTag(...preferred: readonly string[]): string {
  return preferred.find((tag) => languageOf(tag) === language.value) ?? language.value;
}

export function preferLanguage(
  storage: Pick<Storage, 'getItem'>,
  browserTags: readonly string[],
  page: { lang: string },
): void {
  language.value = languageOf(stored(storage)) ?? browserTags.map(languageOf).find((known) => known) ?? 'en';
  page.lang = language.value;
}

export function chooseLanguage(next: Language, storage: Pick<Storage, 'setItem'>, page: { lang: string }): void {
  language.value = next;
  page.lang = next;
  try {
    storage.setItem(KEY, next);
  } catch {
    // the choice then lasts until the page is closed
  }
}

function stored(storage: Pick<Storage, 'getItem'>): string | null {
  try {
    return storage.getItem(KEY);
  } catch {
    return null;
  }
}

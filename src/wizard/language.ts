/** The language of the interface: the one chosen on this device, else the first of the browser's that there is a catalogue for. */
import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { REFUSALS, type Refusals } from '../evidence/refusals.ts';
import type { Sayings } from '../knowledge/schema-sayings.ts';
import { en, type Messages } from './messages/en.ts';

export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

interface Catalogues {
  readonly messages: Messages;
  readonly refusals: Refusals;
  /** what is wrong with the shop profile; null: it is read as it comes, in English */
  readonly shopProblems: Sayings | null;
}

const ENGLISH: Catalogues = { messages: en, refusals: REFUSALS, shopProblems: null };

/** English is there from the start; another catalogue is fetched when somebody reads it. */
const CATALOGUES: { readonly [language in Language]: () => Promise<Catalogues> } = {
  en: async () => ENGLISH,
  de: async () => {
    const [{ de }, { refusalsDe }, { shopProblemsDe }] = await Promise.all([
      import('./messages/de.ts'),
      import('./messages/refusals-de.ts'),
      import('./messages/shop-problems-de.ts'),
    ]);
    return { messages: de, refusals: refusalsDe, shopProblems: shopProblemsDe };
  },
};
const KEY = 'worth-the-heat.language';

const shown = signal<Catalogues & { readonly language: Language }>({ language: 'en', ...ENGLISH });

export const language: ReadonlySignal<Language> = computed(() => shown.value.language);

/** Read it where it is shown: what reads it follows the switch. */
export const messages: ReadonlySignal<Messages> = computed(() => shown.value.messages);

/** What is refused of a record or a reading, in that language. */
export const refusals: ReadonlySignal<Refusals> = computed(() => shown.value.refusals);

/** What is wrong with the shop profile, in that language; null: as it comes. */
export const shopProblems: ReadonlySignal<Sayings | null> = computed(() => shown.value.shopProblems);

/** What the rules are shown in: they follow a switch a moment later, when they have been read. */
export const rulesLanguage = signal<string>('en');

/** The language of a tag such as `de-AT`; undefined where there is no catalogue for it. */
const languageOf = (tag: string | null): Language | undefined =>
  LANGUAGES.find((known) => tag === known || tag?.startsWith(`${known}-`));

/** The tag Intl formats with: the first of these that is of the chosen language, so that an Irish bench keeps its Irish dates. */
export function formatTag(...preferred: readonly string[]): string {
  return preferred.find((tag) => languageOf(tag) === language.value) ?? language.value;
}

/** Comes back when the catalogue is there; one that cannot be had leaves the language as it is. */
async function show(next: Language, page: { lang: string }): Promise<boolean> {
  try {
    shown.value = { language: next, ...(await CATALOGUES[next]()) };
    page.lang = next;
    return true;
  } catch {
    return false;
  }
}

export async function preferLanguage(
  storage: Pick<Storage, 'getItem'>,
  browserTags: readonly string[],
  page: { lang: string },
): Promise<void> {
  await show(languageOf(stored(storage)) ?? browserTags.map(languageOf).find((known) => known) ?? 'en', page);
}

export async function chooseLanguage(
  next: Language,
  storage: Pick<Storage, 'setItem'>,
  page: { lang: string },
): Promise<void> {
  if (!(await show(next, page))) return;
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

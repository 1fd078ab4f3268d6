/** Language and paper of the owner's page, as last chosen on this device. */
import { LANGUAGES, type Language } from '../language.ts';

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

const LANGUAGE = 'worth-the-heat.owner-language';
const PAPER = 'worth-the-heat.owner-paper';

function stored<Choice extends string>(key: string, known: readonly Choice[]): Choice | undefined {
  try {
    const held = localStorage.getItem(key);
    return known.find((one) => one === held);
  } catch {
    return undefined;
  }
}

function store(key: string, choice: string): void {
  try {
    localStorage.setItem(key, choice);
  } catch {
    // the choice then lasts until the page is closed
  }
}

export const chosenLanguage = (): Language | undefined => stored(LANGUAGE, LANGUAGES);
export const chosenPaper = (): Paper | undefined => stored(PAPER, PAPERS);
export const chooseOwnerLanguage = (choice: Language): void => store(LANGUAGE, choice);
export const choosePaper = (choice: Paper): void => store(PAPER, choice);

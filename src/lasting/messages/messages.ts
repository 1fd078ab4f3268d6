import { de } from './de.ts';
import { en, type Messages } from './en.ts';

export const LASTING_LANGUAGES = ['en', 'de'] as const;
export type LastingLanguage = (typeof LASTING_LANGUAGES)[number];

const CATALOGUES: Readonly<Record<LastingLanguage, Messages>> = { en, de };

export const lastingMessages = (language: LastingLanguage): Messages => CATALOGUES[language];

export type { Messages };

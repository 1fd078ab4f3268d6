import type { Language } from '../schema.ts';
import { de } from './de.ts';
import { en, type Messages } from './en.ts';

const CATALOGUES: Readonly<Record<Language, Messages>> = { en, de };

export function messagesIn(language: Language): Messages {
  return CATALOGUES[language];
}

export type { Messages };

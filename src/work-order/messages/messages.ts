import { de } from './de.ts';
import { en, type OrderMessages } from './en.ts';

/** Languages a job sheet can be in. */
export const SHEET_LANGUAGES = ['en', 'de'] as const;

/** The words for an order in that language; English where there are none. */
export const orderMessages = (language: string | undefined): OrderMessages => (language === 'de' ? de : en);

import { de } from './de.ts';
import { type BallMessages, en } from './en.ts';

export type { BallMessages };

/** The words for a ball joint in that language; English where there are none. */
export const ballMessages = (language: string | undefined): BallMessages => (language === 'de' ? de : en);

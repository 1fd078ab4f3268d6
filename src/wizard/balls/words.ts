/** The sentences of this part, in the language of the interface. They are loaded with it. */
import { computed } from '@preact/signals';
import { ballMessages } from '../../ball-grid/messages/messages.ts';
import { language } from '../language.ts';
import { ballsDe } from '../messages/balls-de.ts';
import { ballsEn } from '../messages/balls-en.ts';

const CATALOGUES = { en: ballsEn, de: ballsDe };

export const ballsWords = computed(() => CATALOGUES[language.value]);

/** What is said of a ball joint on paper as well. */
export const jointWords = computed(() => ballMessages(language.value));

/** The sentences of this step, in the language of the interface. They are loaded with it, not with the first screen. */
import { computed } from '@preact/signals';
import { language } from '../language.ts';
import { workDe } from '../messages/work-de.ts';
import { workEn } from '../messages/work-en.ts';

const CATALOGUES = { en: workEn, de: workDe };

export const workWords = computed(() => CATALOGUES[language.value]);

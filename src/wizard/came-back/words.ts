/** The sentences of this step, in the language of the interface. They are loaded with it, not with the first screen. */
import { computed } from '@preact/signals';
import { language } from '../language.ts';
import { cameBackDe } from '../messages/came-back-de.ts';
import { cameBackEn } from '../messages/came-back-en.ts';

const CATALOGUES = { en: cameBackEn, de: cameBackDe };

export const cameBackWords = computed(() => CATALOGUES[language.value]);

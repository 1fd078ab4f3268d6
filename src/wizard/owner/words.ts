/** The sentences of this step, in the language of the interface. They are loaded with it, not with the first screen. */
import { computed } from '@preact/signals';
import { language } from '../language.ts';
import { ownerDe } from '../messages/owner-de.ts';
import { ownerEn } from '../messages/owner-en.ts';

const CATALOGUES = { en: ownerEn, de: ownerDe };

export const ownerWords = computed(() => CATALOGUES[language.value]);

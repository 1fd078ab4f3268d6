/** Stands in the wizard for the English sentences: they come with the rules, as data (`rules-file.ts`). */
export const SAYINGS = {};

/** Eine Dauer hinter „nach“: `12 Monate` wird zu `12 Monaten`. */
export const dative = (duration: string): string => `${duration}`.replace(/(Tage|Monate)$/, '$1n');

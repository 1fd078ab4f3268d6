/** The name of the example profile says that its figures are invented, so it must be understood in every language. */
export const SHIPPED_NAME = {
  en: 'Example bench (invented figures: put in your own)',
  de: 'Beispielwerkstatt (erfundene Zahlen: eigene eintragen)',
} as const;

/** A shop's name as it stands on a page: its own as written, that of the example in the language of the page where there is one. */
export function shopNameIn(language: string, name: string): string {
  if (name !== SHIPPED_NAME.en) return name;
  return SHIPPED_NAME[language as keyof typeof SHIPPED_NAME] ?? name;
}

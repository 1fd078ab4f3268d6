import { chooseLanguage, LANGUAGES, language, messages } from '../language.ts';

/** Says in the other language what it does, for whoever cannot read this one. */
export function LanguageSwitch() {
  const next = LANGUAGES[(LANGUAGES.indexOf(language.value) + 1) % LANGUAGES.length]!;
  const { switchTo } = messages.value.languages;
  return (
    <button
      type="button"
      class="icon"
      lang={next}
      title={switchTo}
      onClick={() => void chooseLanguage(next, localStorage, document.documentElement)}
    >
      <span class="language-code">{next}</span>
      <span class="visually-hidden">: {switchTo}</span>
    </button>
  );
}

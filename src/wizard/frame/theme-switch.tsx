import { useState } from 'preact/hooks';
import { messages } from '../language.ts';
import { ThemeMark } from './marks.tsx';

const THEMES = ['system', 'light', 'dark'] as const;
type Theme = (typeof THEMES)[number];
const KEY = 'worth-the-heat.theme';

function storedTheme(): Theme {
  try {
    const stored = localStorage.getItem(KEY);
    return THEMES.find((theme) => theme === stored) ?? 'system';
  } catch {
    return 'system';
  }
}

export function showTheme(theme: Theme = storedTheme()): void {
  if (theme === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
}

export function ThemeSwitch() {
  const [theme, setTheme] = useState(storedTheme);
  const next = THEMES[(THEMES.indexOf(theme) + 1) % THEMES.length]!;
  const { theme: names, switchTheme } = messages.value.frame;
  const words = switchTheme(names[theme], names[next]);
  return (
    <button
      type="button"
      class="icon"
      title={words}
      aria-label={words}
      onClick={() => {
        setTheme(next);
        showTheme(next);
        try {
          localStorage.setItem(KEY, next);
        } catch {
          // the choice then lasts until the page is closed
        }
      }}
    >
      <ThemeMark />
    </button>
  );
}

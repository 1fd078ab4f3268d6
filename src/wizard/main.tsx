import { render } from 'preact';
import { followAddress } from './address.ts';
import { createAdviser } from './adviser.ts';
import { App } from './app.tsx';
import { createDrafts } from './drafts.ts';
import { oncePainted } from './frame/once-painted.ts';
import { showTheme } from './frame/theme-switch.tsx';
import { createKeeper } from './keeper.ts';
import { language, preferLanguage } from './language.ts';
import { keepOnThisDevice } from './offline/registration.ts';
import { createSession } from './session.ts';
import { readShop } from './shop-answer.ts';
import './look/tokens.css';
import './look/base.css';
import './look/head.css';
import './look/steps.css';
import './look/questions.css';
import './look/fields.css';
import './look/checks.css';
import './look/readings.css';
import './look/pointing.css';
import './look/stamp.css';
import './look/site-map.css';
import './look/price-line.css';
import './look/next.css';
import './look/verdict.css';
import './look/options.css';
import './look/causes.css';
import './look/firmness.css';
import './look/what-if.css';
import './look/bench.css';
import './look/newer.css';
import './look/forced-colors.css';
import './look/print.css';

const hire = () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });

async function start(): Promise<void> {
  showTheme();
  await preferLanguage(localStorage, navigator.languages, document.documentElement);
  followAddress();
  const ask = (path: string, init?: RequestInit) => fetch(path, init);
  const keeper = createKeeper({ fetch: ask, storage: localStorage, now: () => new Date() });
  const drafts = createDrafts(localStorage);
  const { shop, problem } = await readShop(ask);
  const adviser = createAdviser(hire, shop, { language: language.peek(), oncePainted });
  language.subscribe((next) => adviser.speak(next));
  const session = createSession({
    adviser,
    shopProblem: problem,
    keeper,
    drafts,
    fetch: ask,
    now: () => new Date(),
    chance: Math.random,
    locale: navigator.language,
  });
  window.addEventListener('storage', ({ key }) => {
    keeper.hear(key);
    drafts.hear(key);
  });
  addEventListener('online', () => void keeper.sync());
  addEventListener('pagehide', () => void keeper.sync());
  render(<App session={session} offline={keepOnThisDevice()} />, document.getElementById('wizard')!);
  void keeper.sync();
}

void start();

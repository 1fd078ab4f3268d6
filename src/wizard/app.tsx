import { useEffect } from 'preact/hooks';
import { place, writePlace } from './address.ts';
import { BenchScreen } from './bench/bench-screen.tsx';
import { Announcer } from './frame/announcer.tsx';
import { FailureNotice } from './frame/in-place.tsx';
import { onceDrawn, standOnHeading } from './frame/jump.ts';
import { KeepingWords } from './frame/keeping-words.tsx';
import { LanguageSwitch } from './frame/language-switch.tsx';
import { later } from './frame/later.tsx';
import { Marked } from './frame/marked.tsx';
import { BackMark, TicketMark } from './frame/marks.tsx';
import { ThemeSwitch } from './frame/theme-switch.tsx';
import { messages } from './language.ts';
import { NewerNotice } from './offline/newer-notice.tsx';
import type { Offline } from './offline/registration.ts';
import { type Session, SessionContext, useSession } from './session.ts';

/** Questions and results are loaded when the first card is opened; the bench does without. */
const RepairsScreen = later(async () => (await import('./lasting/repairs-screen.tsx')).RepairsScreen);
const CardScreen = later(async () => (await import('./card/card-screen.tsx')).CardScreen);

export function App({ session, offline }: { session: Session; offline: Offline }) {
  const here = place.value;
  const title = session.desk.value?.record.title;
  useEffect(() => {
    void session.follow(here);
  }, [here, session]);
  const { frame } = messages.value;
  const pageTitle = title === undefined ? frame.product : frame.titleOf(title);
  useEffect(() => {
    document.title = pageTitle;
  }, [pageTitle]);
  useEffect(() => listenForUndo(session), [session]);
  const screen = here.screen === 'card' || here.screen === 'case' ? `card ${session.opening.value}` : here.screen;
  useEffect(() => {
    onceDrawn(() => {
      if (document.activeElement === document.body) standOnHeading();
    });
  }, [screen]);
  return (
    <SessionContext.Provider value={session}>
      <button type="button" class="skip" onClick={skipToQuestions}>
        {frame.skip}
      </button>
      <Head />
      <NewerNotice offline={offline} />
      <Screen />
      <Announcer />
    </SessionContext.Provider>
  );
}

function skipToQuestions(): void {
  document.querySelector<HTMLElement>('main h1')?.focus();
}

/** Inside a text field the browser's own undo comes first. */
function listenForUndo(session: Session): () => void {
  const hear = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (event.target instanceof HTMLInputElement && event.target.type === 'text') return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) session.undo();
    else if (key === 'y' || (key === 'z' && event.shiftKey)) session.redo();
    else return;
    event.preventDefault();
  };
  addEventListener('keydown', hear);
  return () => removeEventListener('keydown', hear);
}

function Head() {
  const session = useSession();
  const desk = session.desk.value;
  const { frame } = messages.value;
  return (
    <header class="head">
      <a class="brand" href={writePlace({ screen: 'bench' })}>
        <TicketMark />
        <span>{frame.product}</span>
      </a>
      {desk !== null && (
        <p class="head-card">
          <b>{desk.record.title}</b>
          {desk.record.invented && <small> {frame.invented}</small>}
        </p>
      )}
      <div class="head-tools">
        <KeepingWords />
        {desk !== null && (
          <button
            type="button"
            class="icon"
            disabled={desk.past.length === 0}
            onClick={() => session.undo()}
            title={frame.undoLong}
          >
            <BackMark />
            <span class="icon-word">{frame.undo}</span>
          </button>
        )}
        <LanguageSwitch />
        <ThemeSwitch />
      </div>
    </header>
  );
}

function Screen() {
  const { desk, adviser, opening, keeper } = useSession();
  const here = place.value;
  const { frame } = messages.value;
  if (here.screen === 'bench') return <BenchScreen />;
  if (here.screen === 'repairs') return <RepairsScreen />;
  if (opening.value === 'missing') {
    return (
      <main id="questions" class="bench">
        <h1 tabIndex={-1}>{frame.missing}</h1>
        <p class="lead">
          <Marked
            text={keeper.keeping.value.state === 'on-this-device' ? frame.missingServer : frame.missingAnywhere}
          />
        </p>
        <p>
          <a href="#/">{frame.backToBench}</a>
        </p>
      </main>
    );
  }
  const catalogue = adviser.catalogue.value;
  const { failure } = adviser.advice.value;
  if (desk.value !== null && catalogue !== null)
    return <CardScreen desk={desk.value} catalogue={catalogue} step={here.step} />;
  return (
    <main id="questions" class="bench">
      {failure === null ? <p class="waiting">{frame.opening}</p> : <FailureNotice failure={failure} />}
    </main>
  );
}

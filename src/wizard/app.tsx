import { useEffect } from 'preact/hooks';
import { place, writePlace } from './address.ts';
import { BenchScreen } from './bench/bench-screen.tsx';
import { CardScreen } from './card/card-screen.tsx';
import { Announcer } from './frame/announcer.tsx';
import { FailureNotice } from './frame/in-place.tsx';
import { standOnHeading } from './frame/jump.ts';
import { KeepingWords } from './frame/keeping-words.tsx';
import { BackMark, TicketMark } from './frame/marks.tsx';
import { ThemeSwitch } from './frame/theme-switch.tsx';
import { type Session, SessionContext, useSession } from './session.ts';

export function App({ session }: { session: Session }) {
  const here = place.value;
  const title = session.desk.value?.record.title;
  useEffect(() => {
    void session.follow(here);
  }, [here, session]);
  useEffect(() => {
    document.title = title === undefined ? 'Worth the heat' : `${title} · Worth the heat`;
  }, [title]);
  useEffect(() => listenForUndo(session), [session]);
  const screen = here.screen === 'bench' ? 'bench' : `card ${session.opening.value}`;
  useEffect(() => {
    if (document.activeElement === document.body) standOnHeading();
  }, [screen]);
  return (
    <SessionContext.Provider value={session}>
      <button type="button" class="skip" onClick={skipToQuestions}>
        Skip to the questions
      </button>
      <Head />
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
  return (
    <header class="head">
      <a class="brand" href={writePlace({ screen: 'bench' })}>
        <TicketMark />
        <span>Worth the heat</span>
      </a>
      {desk !== null && (
        <p class="head-card">
          <b>{desk.record.title}</b>
          {desk.record.invented && <small>invented</small>}
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
            title="Take back the last answer (Ctrl+Z)"
          >
            <BackMark />
            <span class="icon-word">Undo</span>
          </button>
        )}
        <ThemeSwitch />
      </div>
    </header>
  );
}

function Screen() {
  const { desk, adviser, opening, keeper } = useSession();
  const here = place.value;
  if (here.screen === 'bench') return <BenchScreen />;
  if (opening.value === 'missing') {
    return (
      <main id="questions" class="bench">
        <h1 tabIndex={-1}>That card is not here</h1>
        <p class="lead">
          {keeper.keeping.value.state === 'on-this-device'
            ? 'The server does not answer and this device holds no copy of it. Start the server with npm start and reload.'
            : 'Neither the server nor this device holds a card under this address.'}
        </p>
        <p>
          <a href="#/">Back to the bench</a>
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
      {failure === null ? <p class="waiting">Opening the card …</p> : <FailureNotice failure={failure} />}
    </main>
  );
}

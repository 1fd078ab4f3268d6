/** The page as it is printed, at whatever size there is room for. */
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Paper } from './page-choice.ts';
import { printedStyle, withoutStyle } from './printed-style.ts';
import { EMPTY_PAGE, printRule, SHEETS } from './sheets.ts';
import { ownerWords } from './words.ts';

/** What a browser rounds away may not make a second sheet of it. */
const SLACK_PIXELS = 2;
/** Both sides of the line around the sheet. */
const BORDER_PIXELS = 2;
/** On a large screen everything else is larger, too. */
const MOST_SCALE = 1.3;

interface Props {
  readonly html: string;
  readonly paper: Paper;
  /** the frame, for whoever prints it */
  readonly frame: RefObject<HTMLIFrameElement | null>;
  /** what it shows, where that is not the owner's page */
  readonly name?: string;
  /** what to say where it takes more than one side and may */
  readonly sides?: string;
}

export function Preview({ html, paper, frame, name, sides }: Props) {
  const words = ownerWords.value;
  const called = name ?? words.preview;
  const { width, height } = SHEETS[paper];
  const around = useRef<HTMLDivElement>(null);
  const [opened, setOpened] = useState(false);
  const [room, setRoom] = useState(0);
  const [used, setUsed] = useState(0);
  const [fullSize, setFullSize] = useState(false);

  usePaperOnPrint(paper);
  useLayoutEffect(() => {
    const watcher = new ResizeObserver(([entry]) => setRoom(entry?.contentRect.width ?? 0));
    if (around.current !== null) watcher.observe(around.current);
    return () => watcher.disconnect();
  }, []);
  useEffect(() => {
    const view = frame.current?.contentWindow;
    if (!opened || !view) return;
    show(html, view as Window & typeof globalThis, called);
    setUsed(view.document.querySelector('main')?.scrollHeight ?? 0);
  }, [opened, html]);

  const tooLong = used > height + SLACK_PIXELS;
  const fitting = room === 0 ? 1 : Math.min(MOST_SCALE, (room - BORDER_PIXELS) / width);
  const size = {
    '--sheet-width': `${width}px`,
    '--sheet-height': `${Math.max(height, used)}px`,
    '--sheet-scale': fullSize ? Math.max(1, fitting) : fitting,
  };
  return (
    <section class="owner-preview" aria-label={called}>
      <p class="owner-preview-words">
        <span role="status">{used === 0 ? '' : tooLong ? (sides ?? words.tooLong) : words.onePage}</span>
        {fitting < 1 && (
          <button type="button" class="quiet" aria-pressed={fullSize} onClick={() => setFullSize(!fullSize)}>
            {words.fullSize}
          </button>
        )}
      </p>
      <div class="owner-sheet" ref={around} tabIndex={fullSize ? 0 : undefined} data-paper={paper} style={size}>
        <div class="owner-room">
          <iframe class="owner-frame" ref={frame} title={called} srcdoc={EMPTY_PAGE} onLoad={() => setOpened(true)} />
        </div>
      </div>
    </section>
  );
}

/** Puts the page into the frame in place of the one before, so that nothing flickers while a price is moved. */
function show(html: string, view: Window & typeof globalThis, name: string): void {
  const { document: page } = view;
  const { bare, style } = withoutStyle(html);
  const next = new DOMParser().parseFromString(bare, 'text/html');
  const sheet = new view.CSSStyleSheet();
  sheet.replaceSync(printedStyle(style));
  page.documentElement.lang = next.documentElement.lang;
  page.title = next.title;
  page.body.replaceChildren(...next.body.childNodes);
  // there is another main beside it, that of the wizard
  page.querySelector('main')?.setAttribute('aria-label', name);
  page.adoptedStyleSheets = [sheet];
}

/** While the page is shown, the browser's own print command prints it, too, on its paper and alone. */
function usePaperOnPrint(paper: Paper): void {
  // before the next paint: who prints right after choosing the paper must get that paper
  useLayoutEffect(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(printRule(paper));
    document.adoptedStyleSheets.push(sheet);
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
    };
  }, [paper]);
}

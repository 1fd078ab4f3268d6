/** The browser's own print command, while the job sheet is shown: it prints the sheet, on as many sides as it takes. */
import { useEffect } from 'preact/hooks';
import { withoutStyle } from '../owner/printed-style.ts';

/**
 * A frame is cut wherever a side ends, through a line if it must be. So the sheet stands in place of the wizard while the browser
 * prints, and breaks where it may; afterwards everything is as it was.
 */
export function useSheetOnPrint(html: string): void {
  useEffect(() => {
    let putBack: (() => void) | null = null;
    const before = () => {
      putBack ??= standIn(html);
    };
    const after = () => {
      putBack?.();
      putBack = null;
    };
    window.addEventListener('beforeprint', before);
    window.addEventListener('afterprint', after);
    return () => {
      after();
      window.removeEventListener('beforeprint', before);
      window.removeEventListener('afterprint', after);
    };
  }, [html]);
}

function standIn(html: string): () => void {
  const { bare, style } = withoutStyle(html);
  const next = new DOMParser().parseFromString(bare, 'text/html');
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`${style} body>:not([data-printed]){display:none!important}`);
  const printed = document.createElement('div');
  printed.dataset.printed = '';
  printed.lang = next.documentElement.lang;
  printed.append(...next.body.childNodes);
  const ours = [...document.styleSheets].filter(({ disabled }) => !disabled);
  const adopted = [...document.adoptedStyleSheets];
  for (const one of ours) one.disabled = true;
  document.adoptedStyleSheets = [sheet];
  document.body.append(printed);
  return () => {
    printed.remove();
    document.adoptedStyleSheets = adopted;
    for (const one of ours) one.disabled = false;
  };
}

/** The order on paper, on as many sides as it can be read on, printed from here as the owner's page is. */
import { useMemo, useRef, useState } from 'preact/hooks';
import type { WorkOrder } from '../../work-order/schema.ts';
import { sheetHtml } from '../../work-order/sheet-html.ts';
import { choosePaper, chosenPaper, PAPERS, type Paper } from '../owner/page-choice.ts';
import { Preview } from '../owner/preview.tsx';
import { saveAsFile } from '../owner/save-as-file.ts';
import { ownerWords } from '../owner/words.ts';
import { useSheetOnPrint } from './sheet-on-print.ts';
import { workWords } from './words.ts';
import '../look/owner.css';

export function JobSheet({ order }: { readonly order: WorkOrder }) {
  const { sheet: words } = workWords.value;
  const [open, setOpen] = useState(false);
  return (
    <details class="job-sheet" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>
        <h2>{words.open}</h2>
      </summary>
      {open && <Sheet order={order} />}
    </details>
  );
}

function Sheet({ order }: { readonly order: WorkOrder }) {
  const { sheet: words } = workWords.value;
  const { papers } = ownerWords.value;
  const [paper, setPaper] = useState<Paper>(chosenPaper() ?? 'a4');
  const frame = useRef<HTMLIFrameElement>(null);
  const html = useMemo(() => sheetHtml(order, paper), [order, paper]);
  useSheetOnPrint(html);
  const print = () => {
    const page = frame.current?.contentWindow;
    page?.focus();
    page?.print();
  };
  return (
    <>
      <p class="about">{words.about}</p>
      <fieldset class="owner-pick" data-question>
        <legend>{words.paper}</legend>
        <div class="choices">
          {PAPERS.map((one) => (
            <label class="choice" key={one}>
              <input
                type="radio"
                name="sheet-paper"
                checked={paper === one}
                onChange={() => {
                  setPaper(one);
                  choosePaper(one);
                }}
              />
              <span class="choice-name">{papers[one]}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <p class="owner-deeds">
        <button type="button" class="main" onClick={print}>
          {words.print}
        </button>
        <button type="button" onClick={() => saveAsFile(`${order.record}-${order.remedy}.html`, html)}>
          {words.save}
        </button>
      </p>
      <Preview html={html} paper={paper} frame={frame} name={words.preview} sides={words.sides} />
    </>
  );
}

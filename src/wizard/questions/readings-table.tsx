import { useState } from 'preact/hooks';
import type { Assessed, EvidenceItem } from '../../assessment.ts';
import type { Record } from '../../record/schema.ts';
import type { FindingView } from '../catalogue.ts';
import { messages } from '../language.ts';
import { COLUMNS, type Column, isBlock, layBlock } from '../paste.ts';
import type { Rail } from '../rails.ts';
import { useSession } from '../session.ts';
import { findingKey } from '../steps.ts';
import { takeCells } from '../take-readings.ts';
import { KnownGoodField, ReadingField } from './reading.tsx';
import { StatePick } from './state-pick.tsx';
import { useMeter } from './use-meter.ts';
import { WindowBand } from './window-band.tsx';

type Windows = ReadonlyMap<string, Assessed['windows'][number]>;

interface Props {
  readonly rails: readonly Rail[];
  readonly evidence: ReadonlyMap<string, EvidenceItem>;
  readonly windows: Windows;
  /** voltages wait until power is allowed */
  readonly voltagesOpen: boolean;
}

export function ReadingsTable({ rails, evidence, windows, voltagesOpen }: Props) {
  const { readings } = messages.value;
  const { paste, said } = usePaste(rails, voltagesOpen);
  return (
    <div class="readings" onPaste={paste}>
      <p class="pasted" role="status">
        {said}
      </p>
      <table>
        <caption class="visually-hidden">{readings.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{readings.rail}</th>
            <th scope="col">{readings.toGround}</th>
            <th scope="col">{readings.knownGood}</th>
            <th scope="col">{readings.says}</th>
            <th scope="col">{readings.voltage}</th>
            <th scope="col">{readings.says}</th>
          </tr>
        </thead>
        <tbody>
          {rails.map((rail) => (
            <tr key={rail.id}>
              <th scope="row">{rail.name}</th>
              <ResistanceCells rail={rail} evidence={evidence} windows={windows} />
              <VoltageCells rail={rail} evidence={evidence} windows={windows} open={voltagesOpen} />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A block out of a spreadsheet fills the cells below and beside the one it is pasted at; the rest of the page hears how many. */
function usePaste(rails: readonly Rail[], voltagesOpen: boolean) {
  const { desk, drafts, editWithDrafts } = useSession();
  const { meter, quantityOf } = useMeter();
  const [told, setTold] = useState<{ readonly words: string; readonly of: Record } | null>(null);
  const paste = (event: ClipboardEvent) => {
    const text = event.clipboardData?.getData('text/plain') ?? '';
    const cell = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-rail]') : null;
    const column = COLUMNS.find((one) => one === cell?.dataset.column);
    const rail = cell?.dataset.rail;
    if (desk.value === null || column === undefined || rail === undefined || !isBlock(text)) return;
    event.preventDefault();
    const reach = voltagesOpen ? rails : rails.map((one) => ({ ...one, voltage: null }));
    const { cells, left, headings, byName } = layBlock(text, reach, { rail, column });
    const around = { drafts: drafts.texts.value, meter, quantityOf: (finding: string) => quantityOf(finding)! };
    const taken = takeCells(cells, desk.value.record, new Date().toISOString(), around);
    editWithDrafts((record, at) => takeCells(cells, record, at, around).record, taken.drafts);
    const { pasted, pastedHeading, pastedByName } = messages.value.readings;
    const words = [
      pasted(taken.readable, taken.unreadable, left.length),
      ...(headings.length > 0 ? [pastedHeading(headings.join(' / '))] : []),
      ...(byName ? [pastedByName] : []),
    ];
    setTold({ words: words.join('; '), of: desk.value.record });
  };
  // what has been taken back is not said any more
  const stands =
    told !== null &&
    desk.value !== null &&
    [...desk.value.past, desk.value.record].some((record) => record === told.of);
  return { paste, said: stands ? told.words : '' };
}

interface CellsProps {
  readonly rail: Rail;
  readonly evidence: ReadonlyMap<string, EvidenceItem>;
  readonly windows: Windows;
}

function ResistanceCells({ rail, evidence, windows }: CellsProps) {
  const finding = rail.resistance;
  const { readings } = messages.value;
  if (finding === null) return <td colSpan={3} class="no-reading" />;
  const place = (column: Column) => ({ 'data-question': true, 'data-column': column, 'data-rail': rail.id });
  return (
    <>
      <td data-label={readings.toGround}>
        <span id={findingKey(finding.id)} {...place('ground')}>
          <ReadingField finding={finding} label={readings.resistanceOf(rail.name)} hideLabel />
        </span>
      </td>
      <td data-label={readings.knownGood}>
        <span {...place('known-good')}>
          <KnownGoodField finding={finding} label={readings.knownGoodOf(rail.name)} hideLabel />
        </span>
      </td>
      <td data-label={readings.says} class="says-cell">
        <Band finding={finding} evidence={evidence} windows={windows} />
        <StatePick
          finding={finding}
          evidence={evidence.get(finding.id)}
          label={readings.resistanceInWords(rail.name)}
        />
      </td>
    </>
  );
}

function VoltageCells({ rail, evidence, windows, open }: CellsProps & { readonly open: boolean }) {
  const finding = rail.voltage;
  const { readings } = messages.value;
  if (finding === null) return <td colSpan={2} class="no-reading" />;
  return (
    <>
      <td data-label={readings.voltage}>
        <span id={findingKey(finding.id)} data-question={open || undefined} data-column="voltage" data-rail={rail.id}>
          <ReadingField finding={finding} label={readings.voltageOf(rail.name)} hideLabel disabled={!open} />
        </span>
      </td>
      <td data-label={readings.says} class="says-cell">
        <Band finding={finding} evidence={evidence} windows={windows} />
        <StatePick
          finding={finding}
          evidence={evidence.get(finding.id)}
          label={readings.voltageInWords(rail.name)}
          disabled={!open}
        />
      </td>
    </>
  );
}

interface BandProps {
  readonly finding: FindingView;
  readonly evidence: ReadonlyMap<string, EvidenceItem>;
  readonly windows: Windows;
}

/** The window as it was applied to the reading, else as it stands. */
function Band({ finding, evidence, windows }: BandProps) {
  const reading = evidence.get(finding.id)?.reading;
  const shape = reading ?? windows.get(finding.id);
  if (shape === undefined || finding.reading === null) return null;
  return (
    <WindowBand
      shape={shape}
      quantity={finding.reading.quantity}
      states={finding.states}
      reading={reading === undefined ? null : { value: reading.value, uncertainty: reading.uncertainty }}
    />
  );
}

import type { EvidenceItem } from '../../assessment.ts';
import { parseQuantity, type Quantity } from '../../evidence/quantity.ts';
import type { FindingView } from '../catalogue.ts';
import { clearFinding, findingAnswer, typeReading } from '../desk.ts';
import { issuesOf, sayIssue } from '../issues.ts';
import { messages } from '../language.ts';
import { sayGrade } from '../say-reading.ts';
import { useSession } from '../session.ts';
import { howTaken, knownGoodField, readingField } from '../take-readings.ts';
import { type ReadText, TypedField } from './typed-field.tsx';
import { useMeter } from './use-meter.ts';

export function readAs(quantity: Quantity): (text: string) => ReadText {
  return (text) => {
    const parsed = parseQuantity(text, quantity);
    return parsed.kind === 'error' ? { ok: false, ...sayIssue(parsed) } : { ok: true };
  };
}

const asTyped = (text: string, stored: string): boolean => text === stored;

interface FieldProps {
  readonly finding: FindingView;
  readonly label: string;
  readonly disabled?: boolean;
  readonly hideLabel?: boolean;
  readonly describedBy?: string;
}

/** The reading of the card on the bench. */
export function ReadingField({ finding, label, disabled, hideLabel, describedBy }: FieldProps) {
  const { adviser, desk, drafts, edit } = useSession();
  const { meter } = useMeter();
  if (desk.value === null || finding.reading === null) return null;
  const answer = findingAnswer(desk.value.record, finding.id, 'bench');
  const field = readingField(finding.id);
  const [trouble] = issuesOf(adviser.advice.value.assessment, desk.value.record, finding.id);
  const takeText = (text: string, readable: boolean) => {
    drafts.set(field, readable ? null : text);
    if (!readable) return;
    if (text.trim() !== '') {
      const { quantity } = finding.reading!;
      const waiting = drafts.texts.value;
      edit(
        (record, at) =>
          typeReading(record, finding.id, text, at, howTaken(record, finding.id, quantity, waiting, meter)),
        field,
      );
      drafts.set(knownGoodField(finding.id), null);
    } else if (answer?.type === 'measured') edit((record) => clearFinding(record, finding.id, 'bench'), field);
  };
  return (
    <TypedField
      id={field}
      label={label}
      hideLabel={hideLabel ?? false}
      unit={finding.reading.unit}
      stored={answer?.type === 'measured' ? answer.typed : ''}
      draft={drafts.texts.value.get(field)}
      read={readAs(finding.reading.quantity)}
      same={asTyped}
      onText={takeText}
      disabled={disabled ?? false}
      describedBy={describedBy}
      trouble={trouble && sayIssue(trouble)}
    />
  );
}

/** The same reading on a known-good board. It waits as a draft until the card itself has been measured. */
export function KnownGoodField({ finding, label, disabled, hideLabel }: FieldProps) {
  const { desk, drafts, edit } = useSession();
  if (desk.value === null || finding.reading === null) return null;
  const answer = findingAnswer(desk.value.record, finding.id, 'bench');
  const measured = answer?.type === 'measured' ? answer : null;
  const field = knownGoodField(finding.id);
  const takeText = (text: string, readable: boolean) => {
    const keepAside = !readable || (measured === null && text.trim() !== '');
    drafts.set(field, keepAside ? text : null);
    if (readable && measured !== null) {
      edit((record, at) => typeReading(record, finding.id, measured.typed, at, { knownGood: text.trim() }), field);
    }
  };
  return (
    <TypedField
      id={field}
      label={label}
      hideLabel={hideLabel ?? false}
      unit={finding.reading.unit}
      stored={measured?.knownGood ?? ''}
      draft={drafts.texts.value.get(field)}
      read={readAs(finding.reading.quantity)}
      same={asTyped}
      onText={takeText}
      disabled={disabled ?? false}
    />
  );
}

/** What the reading means, in words and weights. */
export function Grade({
  finding,
  evidence,
  id,
}: {
  finding: FindingView;
  evidence: EvidenceItem | undefined;
  id?: string;
}) {
  if (evidence === undefined || evidence.origin !== 'measured') return null;
  const name = (state: string) => finding.states.find(({ id }) => id === state)?.name ?? state;
  const index = finding.states.findIndex(({ id }) => id === evidence.state);
  return (
    <span class="grade" id={id} data-normal={index === 0}>
      {sayGrade(evidence.states, evidence.weights, name)}
      {evidence.reading?.recentred && <small> {messages.value.readings.againstKnownGood}</small>}
    </span>
  );
}

/** Above the states of a finding that can also be measured. */
export function Reading({
  finding,
  evidence,
  disabled,
}: {
  finding: FindingView;
  evidence: EvidenceItem | undefined;
  disabled: boolean;
}) {
  return (
    <div class="measured">
      <ReadingField finding={finding} label={messages.value.readings.orType} disabled={disabled} />
      <KnownGoodField finding={finding} label={messages.value.readings.knownGoodCard} disabled={disabled} />
      <Grade finding={finding} evidence={evidence} />
    </div>
  );
}

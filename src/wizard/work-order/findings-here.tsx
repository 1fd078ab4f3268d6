/** What is looked for at a hold point: the same questions as elsewhere, answered here and kept until it is recorded. */
import type { Assessed } from '../../assessment.ts';
import type { OrderStep } from '../../work-order/schema.ts';
import type { Catalogue, FindingView } from '../catalogue.ts';
import { messages, rulesLanguage } from '../language.ts';
import { ChoiceQuestion, withUnknowns } from '../questions/choice-question.tsx';
import { Grade, readAs } from '../questions/reading.tsx';
import { TypedField } from '../questions/typed-field.tsx';
import { WindowBand } from '../questions/window-band.tsx';
import { useSession } from '../session.ts';
import { CANNOT_TELL, LOG_FINDING, logField, numberField, stateField } from './entry.ts';
import { LogHere } from './log-here.tsx';
import type { Grades } from './use-grades.ts';
import { workWords } from './words.ts';

interface Props {
  readonly step: OrderStep;
  readonly remedy: string;
  readonly catalogue: Catalogue;
  readonly windows: Assessed['windows'];
  readonly grades: Grades;
}

export function FindingsHere({ step, remedy, catalogue, windows, grades }: Props) {
  const { drafts } = useSession();
  const { point: words } = workWords.value;
  const views = step.finds.flatMap((find) => {
    const view = catalogue.findings.find(({ id }) => id === find.finding);
    return view === undefined ? [] : [view];
  });
  if (views.length === 0) return null;
  const read = views.filter(({ reading }) => reading !== null);
  // a log that was judged says more than what was read off it by hand
  const judged = drafts.texts.value.has(logField(step.id));
  const seen = views.filter(({ reading, id }) => reading === null && !(judged && id === LOG_FINDING));
  return (
    <div class="point-finds">
      <h3>{words.found}</h3>
      {views.some(({ id }) => id === LOG_FINDING) && <LogHere step={step.id} remedy={remedy} />}
      {seen.map((finding) => (
        <StateHere key={finding.id} step={step.id} finding={finding} />
      ))}
      {read.map((finding) => (
        <ReadingHere key={finding.id} step={step.id} finding={finding} windows={windows} grades={grades} />
      ))}
    </div>
  );
}

interface OneProps {
  readonly step: string;
  readonly finding: FindingView;
}

function StateHere({ step, finding }: OneProps) {
  const { drafts } = useSession();
  const field = stateField(step, finding.id);
  const chosen = drafts.texts.value.get(field);
  const { questions } = messages.value;
  return (
    <ChoiceQuestion
      id={field}
      question={finding.question}
      choices={withUnknowns(
        finding.states.map((state) => ({ value: state.id, name: state.name, lang: rulesLanguage.value })),
        questions.notLookedAt,
      )}
      value={chosen === CANNOT_TELL ? null : chosen}
      onAnswer={(state) => drafts.set(field, state === null ? CANNOT_TELL : (state ?? null))}
      layout="rows"
    />
  );
}

function ReadingHere({
  step,
  finding,
  windows,
  grades,
}: OneProps & { readonly windows: Assessed['windows']; readonly grades: Grades }) {
  const { drafts } = useSession();
  const { point: words } = workWords.value;
  const { questions } = messages.value;
  const field = numberField(step, finding.id);
  const typed = drafts.texts.value.get(field);
  const state = drafts.texts.value.get(stateField(step, finding.id));
  const { quantity, unit } = finding.reading!;
  const grade = typed === undefined ? undefined : grades.get(finding.id);
  const reading = grade?.reading;
  const shape = reading ?? windows.find((window) => window.finding === finding.id);
  return (
    <div class="point-reading">
      <span data-question>
        <TypedField
          id={field}
          label={finding.name}
          unit={unit}
          stored={typed ?? ''}
          read={readAs(quantity)}
          same={(text, stored) => text === stored}
          onText={(text) => drafts.set(field, text === '' ? null : text)}
        />
      </span>
      <span class="point-window">
        {shape !== undefined && (
          <WindowBand
            shape={shape}
            quantity={quantity}
            states={finding.states}
            reading={reading === undefined ? null : { value: reading.value, uncertainty: reading.uncertainty }}
          />
        )}
        <Grade finding={finding} evidence={grade} />
      </span>
      <select
        aria-label={words.inWords(finding.name)}
        value={typed === undefined ? (state ?? '') : ''}
        disabled={typed !== undefined}
        onChange={({ currentTarget }) => drafts.set(stateField(step, finding.id), currentTarget.value || null)}
      >
        <option value="">{words.notMeasured}</option>
        {finding.states.map(({ id, name }) => (
          <option key={id} value={id} lang={rulesLanguage.value}>
            {name}
          </option>
        ))}
        <option value={CANNOT_TELL}>{questions.cannotTell}</option>
      </select>
    </div>
  );
}

/** The one hold point that waits, large enough to be read and answered at arm's length with gloves on. */

import { useEffect, useId, useState } from 'preact/hooks';
import type { Assessed } from '../../assessment.ts';
import type { Record as CardRecord, StepRecord } from '../../record/schema.ts';
import type { OrderState, OrderStep, WorkOrder } from '../../work-order/schema.ts';
import type { Catalogue } from '../catalogue.ts';
import { Cautions } from '../frame/cautions.tsx';
import { rulesLanguage } from '../language.ts';
import { TypedField } from '../questions/typed-field.tsx';
import { useMeter } from '../questions/use-meter.ts';
import { useSession } from '../session.ts';
import { howTaken } from '../take-readings.ts';
import { draftsAt, type Entry, entryAt, failingReading, noteField, recordEntry, writeField } from './entry.ts';
import { FindingsHere } from './findings-here.tsx';
import { FoldedCautions } from './folded-cautions.tsx';
import { outcomeOf } from './outcome-keys.ts';
import { sayLeads } from './point-list.tsx';
import { Since } from './since.tsx';
import { enterFromName } from './stand-on-waiting.ts';
import { REMEDY_DRAFT } from './under-way.ts';
import { gradesOf, useGrades } from './use-grades.ts';
import { workWords } from './words.ts';

interface Props {
  readonly order: WorkOrder;
  readonly state: OrderState;
  readonly step: OrderStep;
  readonly record: CardRecord;
  readonly recorded: readonly StepRecord[];
  readonly catalogue: Catalogue;
  readonly windows: Assessed['windows'];
  readonly onRecorded: () => void;
}

export function HoldPoint(props: Props) {
  const { order, state, step, record, recorded, catalogue, windows, onRecorded } = props;
  const { adviser, drafts, edit } = useSession();
  const { meter, quantityOf } = useMeter();
  const { point: words, order: orderWords, stages } = workWords.value;
  const [refused, setRefused] = useState<string | null>(null);
  const name = useId();
  const texts = drafts.texts.value;
  const entry = entryAt(step, texts, {
    quantityOf,
    takenWith: (finding, quantity) => howTaken(record, finding, quantity, texts, meter),
  });
  const grades = useGrades(record, entry.found);
  const tries = state.steps.find((one) => one.step === step.id)?.tries ?? 0;
  useEffect(() => setRefused(null), [step.id, tries, texts]);

  const take = async (outcome: StepRecord['outcome']) => {
    const why = await refusal(outcome);
    if (why !== null) {
      setRefused(why);
      return;
    }
    const tried = recordEntry(order, record, step, outcome, entry, new Date().toISOString());
    if (!tried.ok) {
      setRefused(`${tried.wrong} ${tried.todo}`);
      return;
    }
    edit((latest, at) => {
      const again = recordEntry(order, latest, step, outcome, entry, at);
      return again.ok ? again.record : latest;
    });
    for (const field of draftsAt(step.id, texts)) drafts.set(field, null);
    drafts.set(REMEDY_DRAFT, null);
    onRecorded();
  };
  const refusal = async (outcome: StepRecord['outcome']): Promise<string | null> => {
    const [unreadable] = entry.unreadable;
    if (unreadable !== undefined) return words.unreadable(unreadable.name);
    if (outcome === 'left-out' && entry.note === '') return words.reasonFirst;
    if (outcome === 'left-out' && entry.found.length > 0) return words.foundAndLeftOut;
    if (outcome !== 'passed') return null;
    if (entry.fails !== null) return words.fails(entry.fails.find.name, entry.fails.state);
    // a reading just typed may not have been graded yet
    const reads = failingReading(step, await gradesOf(adviser, record, entry.found));
    return reads === null ? null : words.readsAs(reads.find.name, reads.state);
  };
  const hearKey = (event: KeyboardEvent) => {
    if (enterFromName(event)) return;
    const outcome = outcomeOf(event);
    if (outcome === null || (outcome === 'left-out' && step.mayBeLeftOut === null)) return;
    event.preventDefault();
    void take(outcome);
  };

  const cautions = order.cautions.filter(({ id }) => step.cautions.includes(id));
  const others = order.cautions.filter((caution) => !cautions.includes(caution));
  const failing = entry.fails ?? failingReading(step, grades);
  return (
    <section class="hold-point" aria-labelledby={name} onKeyDown={hearKey}>
      <p class="hold-where">
        <span class="hold-number">{words.number(step.number, order.steps.length)}</span>
        <span>{stages[step.stage]}</span>
        {step.power !== null && <b class="hold-power">{words.power[step.power]}</b>}
        {tries > 0 && <b class="hold-again">{words.again(tries + 1)}</b>}
        <Since recorded={recorded} minutes={order.minutes} />
      </p>
      <h2 tabIndex={-1} lang={rulesLanguage.value} id={name} class="hold-name">
        {step.name}
      </h2>
      <Cautions cautions={cautions} />
      <FoldedCautions
        name={(cautions.length > 0 ? words.otherCautions : orderWords.cautions)(others.length)}
        cautions={others}
      />
      <ol class="hold-how" lang={rulesLanguage.value} aria-label={words.how}>
        {step.howTo.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ol>
      <p class="hold-passes">
        <b>{words.passes}</b> <span lang={rulesLanguage.value}>{step.passes}</span>
      </p>
      <FindingsHere step={step} remedy={order.remedy} catalogue={catalogue} windows={windows} grades={grades} />
      <Writing step={step} />
      <Outcomes
        step={step}
        entry={entry}
        failing={failing}
        refused={refused}
        onTake={(outcome) => void take(outcome)}
      />
      <dl class="hold-small">
        <div>
          <dt>{words.ifNot}</dt>
          <dd>
            <span lang={rulesLanguage.value}>{step.ifItFails.say}</span> {sayLeads(step, order.steps)}
          </dd>
        </div>
        {step.mayBeLeftOut !== null && (
          <div>
            <dt>{words.mayBeLeftOut}</dt>
            <dd lang={rulesLanguage.value}>{step.mayBeLeftOut}</dd>
          </div>
        )}
        {step.why !== null && (
          <div>
            <dt>{words.why}</dt>
            <dd lang={rulesLanguage.value}>
              {step.why.text} <small>({step.why.from})</small>
            </dd>
          </div>
        )}
        {step.figures.length > 0 && (
          <div>
            <dt>{words.figures}</dt>
            <dd lang={rulesLanguage.value}>{step.figures.map(({ text, from }) => `${text}: ${from}`).join('; ')}</dd>
          </div>
        )}
      </dl>
      <p class="about hold-keys">{words.keys}</p>
    </section>
  );
}

/** A blank for each thing that is written down, as on the job sheet, and one for anything else. */
function Writing({ step }: { readonly step: OrderStep }) {
  const { drafts } = useSession();
  const { point: words } = workWords.value;
  const blanks = [
    ...step.record.map((label, place) => ({ field: writeField(step.id, place), label, lang: rulesLanguage.value })),
    { field: noteField(step.id), label: words.note, lang: undefined },
  ];
  return (
    <div class="hold-write">
      <h3>{words.write}</h3>
      {blanks.map(({ field, label, lang }) => (
        <div data-question key={field} lang={lang}>
          <TypedField
            id={field}
            label={label}
            stored={drafts.texts.value.get(field) ?? ''}
            read={() => ({ ok: true })}
            same={(text, stored) => text === stored}
            onText={(text) => drafts.set(field, text === '' ? null : text)}
            size="long"
          />
        </div>
      ))}
    </div>
  );
}

interface OutcomesProps {
  readonly step: OrderStep;
  readonly entry: Entry;
  readonly failing: Entry['fails'];
  readonly refused: string | null;
  readonly onTake: (outcome: StepRecord['outcome']) => void;
}

function Outcomes({ step, entry, failing, refused, onTake }: OutcomesProps) {
  const { point: words } = workWords.value;
  const passed = (
    <button
      type="button"
      class={failing === null ? 'main outcome' : 'outcome'}
      disabled={failing !== null}
      onClick={() => onTake('passed')}
      aria-keyshortcuts="1"
    >
      {words.passed}
      <span class="key" aria-hidden="true">
        1
      </span>
    </button>
  );
  return (
    <fieldset class="hold-outcome" data-question>
      <legend>{words.outcome}</legend>
      <div class="outcomes-row">
        {failing === null && passed}
        <button
          type="button"
          class={failing === null ? 'outcome' : 'main outcome'}
          data-outcome="failed"
          onClick={() => onTake('failed')}
          aria-keyshortcuts="2"
        >
          {words.failed}
          <span class="key" aria-hidden="true">
            2
          </span>
        </button>
        {failing !== null && passed}
        {step.mayBeLeftOut !== null && (
          <button type="button" class="outcome" onClick={() => onTake('left-out')} aria-keyshortcuts="3">
            {words.leftOut}
            <span class="key" aria-hidden="true">
              3
            </span>
          </button>
        )}
      </div>
      <div role="status">
        {refused !== null ? (
          <p class="field-wrong">
            <strong>{words.refused}</strong> {refused}
          </p>
        ) : failing !== null ? (
          <p class="hold-fails">
            {(entry.fails === null ? words.readsAs : words.fails)(failing.find.name, failing.state)}
          </p>
        ) : null}
      </div>
    </fieldset>
  );
}

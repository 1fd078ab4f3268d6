/** Every hold point in order: what was recorded, what waits, and what is locked, each with why. */
import { sayNote } from '../../work-order/say-note.ts';
import type { OrderState, OrderStep, WorkOrder } from '../../work-order/schema.ts';
import { LockMark } from '../frame/marks.tsx';
import { formatTag, rulesLanguage } from '../language.ts';
import { type Lock, lockOf, proofsOf } from './locks.ts';
import { OutcomeMark } from './outcome-mark.tsx';
import { workWords } from './words.ts';

type State = OrderState['steps'][number];

interface Props {
  readonly order: WorkOrder;
  readonly state: OrderState;
  readonly locale: string;
}

export function PointList({ order, state, locale }: Props) {
  const { list: words } = workWords.value;
  const { steps } = order;
  const stages = [...new Set(steps.map(({ stage }) => stage))];
  return (
    <section class="points">
      <h2>{words.heading}</h2>
      <p class="about">{words.about}</p>
      {stages.map((stage) => (
        <Stage key={stage} stage={stage} steps={steps} state={state} locale={locale} />
      ))}
    </section>
  );
}

function Stage({
  stage,
  steps,
  state,
  locale,
}: {
  readonly stage: OrderStep['stage'];
  readonly steps: readonly OrderStep[];
  readonly state: OrderState;
  readonly locale: string;
}) {
  const { stages } = workWords.value;
  return (
    <section class="points-stage">
      <h3>{stages[stage]}</h3>
      {stage === 'prove' && <Chain steps={steps} state={state} />}
      <ol>
        {steps.map((step, at) =>
          step.stage === stage ? (
            <Row
              key={step.id}
              step={step}
              now={state.steps[at]!}
              lock={lockOf({ steps, state }, at)}
              locale={locale}
              steps={steps}
            />
          ) : null,
        )}
      </ol>
    </section>
  );
}

/** Resistance before voltage before image: three doors, and which of them are open. */
function Chain({ steps, state }: { readonly steps: readonly OrderStep[]; readonly state: OrderState }) {
  const { list: words } = workWords.value;
  const proofs = proofsOf({ steps, state });
  if (proofs.length < 2) return null;
  return (
    <ol class="chain" aria-label={words.chain}>
      {proofs.map(({ kind, standing }) => (
        <li key={kind} data-standing={standing}>
          {standing === 'closed' ? <LockMark /> : <OutcomeMark standing={standing} />}
          <b>{words[kind]}</b>
          <small>{words[standing === 'open' ? 'now' : standing]}</small>
        </li>
      ))}
    </ol>
  );
}

function Row({
  step,
  now,
  lock,
  locale,
  steps,
}: {
  readonly step: OrderStep;
  readonly now: State;
  readonly lock: Lock | null;
  readonly locale: string;
  readonly steps: readonly OrderStep[];
}) {
  const { list: words, point } = workWords.value;
  const { standing, tries, at, note } = now;
  return (
    <li class="point-row" data-standing={standing} data-step={step.id}>
      <details>
        <summary>
          <span class="point-mark">{standing === 'closed' ? <LockMark /> : <OutcomeMark standing={standing} />}</span>
          <span class="point-no">{step.number}</span>
          <span class="point-name">
            <span lang={rulesLanguage.value}>{step.name}</span>
            {step.power !== null && <small class="point-power">{point.power[step.power]}</small>}
          </span>
          <span class="point-standing">
            {words[standing]}
            {tries > 1 && `, ${words.tries(tries)}`}
            {at !== null && <small>{sayAt(at, locale)}</small>}
          </span>
        </summary>
        <ReadAhead step={step} steps={steps} />
      </details>
      {lock !== null && <p class="point-lock">{sayLock(lock)}</p>}
      {note !== null && <p class="point-note">{sayNote(step, note)}</p>}
    </li>
  );
}

/** To be read before it is its turn, or again. */
function ReadAhead({ step, steps }: { readonly step: OrderStep; readonly steps: readonly OrderStep[] }) {
  const { point: words } = workWords.value;
  return (
    <div class="point-ahead">
      <ol lang={rulesLanguage.value}>
        {step.howTo.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ol>
      <p>
        <b>{words.passes}:</b> <span lang={rulesLanguage.value}>{step.passes}</span>
      </p>
      <p>
        <b>{words.ifNot}:</b> <span lang={rulesLanguage.value}>{step.ifItFails.say}</span> {sayLeads(step, steps)}
      </p>
    </div>
  );
}

export function sayLeads({ ifItFails }: OrderStep, steps: readonly OrderStep[]): string {
  const { leads } = workWords.value.point;
  if (ifItFails.leads !== 'back') return leads[ifItFails.leads];
  const to = steps.find(({ id }) => id === ifItFails.to);
  return to === undefined ? leads.again : leads.back(to.number, to.name);
}

function sayLock(lock: Lock): string {
  const { locked } = workWords.value.list;
  return 'opens' in lock ? locked[lock.kind](lock.opens.number, lock.opens.name) : locked[lock.kind];
}

export function sayAt(at: string, locale: string): string {
  const then = new Date(at);
  const sameDay = then.toDateString() === new Date().toDateString();
  return new Intl.DateTimeFormat(
    formatTag(locale),
    sameDay
      ? { hour: '2-digit', minute: '2-digit' }
      : { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' },
  ).format(then);
}

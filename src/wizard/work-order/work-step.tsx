/** The work on a card: the order, its hold points one after the other, and how it ended. */
import type { Assessed } from '../../assessment.ts';
import { orderState } from '../../work-order/order-state.ts';
import type { OrderState, WorkOrder } from '../../work-order/schema.ts';
import { takeBackStep } from '../../work-order/take-back.ts';
import type { Catalogue } from '../catalogue.ts';
import type { Desk } from '../desk.ts';
import { onceDrawn } from '../frame/jump.ts';
import { ArrowMark, BackMark, CautionMark } from '../frame/marks.tsx';
import { rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { BallsFold } from './balls-fold.tsx';
import { draftsAt, draftsOf } from './entry.ts';
import { Done, Finish } from './finish.tsx';
import { HoldPoint } from './hold-point.tsx';
import { JobSheet } from './job-sheet.tsx';
import { OrderFacts } from './order-facts.tsx';
import { PointList } from './point-list.tsx';
import { RemedyPick } from './remedy-pick.tsx';
import { standOnWaiting } from './stand-on-waiting.ts';
import { type UnderWay, underWay } from './under-way.ts';
import { useOrder } from './use-order.ts';
import { workWords } from './words.ts';
import '../look/order.css';
import '../look/heat-left.css';
import '../look/hold-point.css';
import '../look/point-list.css';

interface Props {
  readonly desk: Desk;
  readonly catalogue: Catalogue;
}

export function WorkStep({ desk, catalogue }: Props) {
  const { adviser, drafts } = useSession();
  const { record } = desk;
  const { assessment } = adviser.advice.value;
  const now = underWay(record, drafts.texts.value);
  const { answer, fromBefore } = useOrder(record, now.remedy);
  const words = workWords.value;
  if (now.done !== null)
    return (
      <>
        <Done record={record} done={now.done} catalogue={catalogue} />
        <section>
          <h2>{words.otherWork}</h2>
          <RemedyPick assessment={assessment} catalogue={catalogue} remedy={undefined} />
        </section>
      </>
    );
  if (answer === null) {
    const lost = assessment !== null && assessment.kind !== 'assessed';
    return <p class="lead">{lost ? words.lead.noAnswer : words.lead.waiting}</p>;
  }
  if (answer.kind === 'no-order')
    return (
      <>
        <p class="lead" lang={rulesLanguage.value}>
          {answer.because}
        </p>
        <p class="about">{words.pick.none}</p>
        <RemedyPick assessment={assessment} catalogue={catalogue} remedy={now.remedy} />
      </>
    );
  return <Order order={answer} now={now} desk={desk} catalogue={catalogue} fromBefore={fromBefore} />;
}

interface OrderProps extends Props {
  readonly order: WorkOrder;
  readonly now: UnderWay;
  readonly fromBefore: boolean;
}

const NO_WINDOWS: Assessed['windows'] = [];

function Order({ order, now, desk: { record }, catalogue, fromBefore }: OrderProps) {
  const { adviser } = useSession();
  const { assessment } = adviser.advice.value;
  const words = workWords.value;
  const { recorded } = now;
  const state = orderState(order, recorded);
  const step = order.steps.find(({ id }) => id === state.next);
  const begun = recorded.length > 0;
  const windows = assessment?.kind === 'assessed' ? assessment.windows : NO_WINDOWS;
  const why = assessment?.kind === 'assessed' && order.advised ? assessment.verdict.because : null;
  const drawOn = () => onceDrawn(standOnWaiting);
  return (
    <>
      <header class="order-head">
        <p class="order-name" lang={rulesLanguage.value}>
          {order.name}
        </p>
        <p class="lead">
          {begun
            ? words.lead.begun(countDone(state), order.steps.length)
            : order.advised
              ? words.lead.advised
              : words.lead.chosen}{' '}
          {!begun && why !== null && <span lang={rulesLanguage.value}>{why}</span>}
        </p>
        {!begun && step !== undefined && (
          <p>
            <button type="button" class="main" onClick={standOnWaiting}>
              {words.begin(step.number, step.name)} <ArrowMark />
            </button>
          </p>
        )}
        {!now.open?.touched && (
          <RemedyPick assessment={assessment} catalogue={catalogue} remedy={now.remedy ?? order.remedy} />
        )}
      </header>
      {fromBefore && <p class="notice">{words.lead.fromBefore}</p>}
      {order.warnings.length > 0 && !begun && (
        <ul class="order-warnings" lang={rulesLanguage.value} aria-label={words.order.toMind}>
          {order.warnings.map((text) => (
            <li key={text}>
              <CautionMark /> {text}
            </li>
          ))}
        </ul>
      )}
      {!begun && (
        <section>
          <h2>{words.order.heading}</h2>
          <OrderFacts order={order} />
        </section>
      )}
      {!begun && <BallsFold order={order} />}
      <Stopped order={order} state={state} />
      {step !== undefined && (
        <HoldPoint
          key={`${step.id} ${recorded.length}`}
          order={order}
          state={state}
          step={step}
          record={record}
          recorded={recorded}
          catalogue={catalogue}
          windows={windows}
          onRecorded={drawOn}
        />
      )}
      {(state.kind === 'finished' || state.kind === 'over') && (
        <Finish over={state.kind === 'over'} touched={now.open?.touched ?? false} />
      )}
      {begun && <TakeBack order={order} now={now} onTaken={drawOn} />}
      <PointList order={order} state={state} locale={catalogue.shop.locale} />
      {begun && (
        <details class="order-folded">
          <summary>
            <h2>{words.order.facts}</h2>
          </summary>
          <OrderFacts order={order} />
        </details>
      )}
      {begun && <BallsFold order={order} />}
      <JobSheet order={order} />
    </>
  );
}

const countDone = (state: OrderState): number =>
  state.steps.filter(({ standing }) => standing === 'passed' || standing === 'left-out').length;

/** What a failed hold point says, and where it leads. */
function Stopped({ order, state }: { readonly order: WorkOrder; readonly state: OrderState }) {
  const { stopped: words } = workWords.value;
  const failed = order.steps.find(({ id }) => state.steps.some((one) => one.step === id && one.standing === 'failed'));
  const next = order.steps.find(({ id }) => id === state.next);
  const [problem] = state.problems;
  if (problem !== undefined)
    return (
      <section class="notice stopped" role="alert">
        <h2>{words.outOfOrder}</h2>
        <p lang={rulesLanguage.value}>
          {problem.wrong} {problem.todo}
        </p>
      </section>
    );
  if (failed === undefined || (state.kind !== 'stopped' && state.kind !== 'over')) return null;
  return (
    <section class="notice stopped" role="alert">
      <h2>{words.heading(failed.name)}</h2>
      <p class="stopped-say" lang={rulesLanguage.value}>
        {failed.ifItFails.say}
      </p>
      {next !== undefined && <p>{next === failed ? words.again : words.goesOn(next.number, next.name)}</p>}
    </section>
  );
}

/** Takes back the last hold point; what was typed at it is there again. */
function TakeBack({
  order,
  now,
  onTaken,
}: {
  readonly order: WorkOrder;
  readonly now: UnderWay;
  readonly onTaken: () => void;
}) {
  const { desk, drafts, edit } = useSession();
  const { list: words } = workWords.value;
  const last = now.recorded.at(-1);
  const step = order.steps.find(({ id }) => id === last?.step);
  if (last === undefined) return null;
  const takeBack = () => {
    const back = desk.value === null ? null : takeBackStep(order, desk.value.record);
    if (back === null) return;
    edit((latest) => takeBackStep(order, latest)?.record ?? latest);
    if (step !== undefined) {
      for (const field of draftsAt(step.id, drafts.texts.value)) drafts.set(field, null);
      for (const [field, text] of draftsOf(step, back.step, back.found)) drafts.set(field, text);
    }
    onTaken();
  };
  return (
    <p class="take-back">
      <button type="button" onClick={takeBack}>
        <BackMark /> {words.takeBack}
        <small lang={rulesLanguage.value}>{step?.name ?? last.step}</small>
      </button>
    </p>
  );
}

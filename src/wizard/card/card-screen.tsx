import { ShopNotice } from '../bench/shop-notice.tsx';
import type { Catalogue } from '../catalogue.ts';
import { type Desk, isBlank } from '../desk.ts';
import { toggleHowTo } from '../frame/how-to-key.ts';
import { onceDrawn, standOnFirst, standOnNeighbour } from '../frame/jump.ts';
import { later } from '../frame/later.tsx';
import { ArrowMark, CautionMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { type StepId, sectionsOf, stepAfter, stepBefore } from '../steps.ts';
import { Stamp } from '../verdict/stamp.tsx';
import { CardStep } from './card-step.tsx';
import { QuestionsStep } from './questions-step.tsx';
import { ReadingsStep } from './readings-step.tsx';
import { StepList } from './step-list.tsx';
import { TestsStep } from './tests-step.tsx';
import { WhatNext } from './what-next.tsx';
import { WhereItPoints } from './where-it-points.tsx';

interface Props {
  readonly desk: Desk;
  readonly catalogue: Catalogue;
  readonly step: StepId;
}

/** Loaded when first shown, with the charts and the letter they bring. */
const VerdictScreen = later(async () => (await import('../verdict/verdict-screen.tsx')).VerdictScreen);
const WorkStep = later(async () => (await import('../work-order/work-step.tsx')).WorkStep);
const CameBackStep = later(async () => (await import('../came-back/came-back-step.tsx')).CameBackStep);
const OwnerStep = later(async () => (await import('../owner/owner-step.tsx')).OwnerStep);

/** Fields in which Enter already means something else. */
const KEEPS_ENTER = 'button, a, summary, textarea, select';

export function CardScreen({ desk, catalogue, step }: Props) {
  const session = useSession();
  const { steps } = messages.value;
  const goTo = (to: StepId | null) => {
    if (to === null) return;
    session.go(to);
    onceDrawn(standOnFirst);
  };
  const hearKey = (event: KeyboardEvent & { readonly target: EventTarget | null }) => {
    if (toggleHowTo(event)) event.preventDefault();
    else enterGoesOn(event);
  };
  const enterGoesOn = (event: KeyboardEvent & { readonly target: EventTarget | null }) => {
    if (event.key !== 'Enter' || event.isComposing || !(event.target instanceof Element)) return;
    if (event.target.matches(KEEPS_ENTER)) return;
    event.preventDefault();
    const { target, shiftKey } = event;
    if (standOnNeighbour(target, shiftKey ? -1 : 1)) return;
    if (shiftKey) goTo(stepBefore(step));
    // the answer just given may open more questions here
    else session.adviser.onceWeighed(() => onceDrawn(() => leaveFrom(target)));
  };
  const leaveFrom = (question: Element) => {
    const moved = !question.contains(document.activeElement);
    if (!moved && !standOnNeighbour(question, 1)) goTo(after);
  };
  const after = stepAfter(step);
  return (
    <div class="card-screen" data-step={step}>
      <ShopNotice />
      <StepList desk={desk} catalogue={catalogue} step={step} />
      <main id="questions" class="step" onKeyDown={hearKey}>
        <h1 tabIndex={-1}>{steps.asks[step]}</h1>
        <StepBody desk={desk} catalogue={catalogue} step={step} />
        {after !== null && (
          <p class="onwards">
            <button type="button" class="main" onClick={() => goTo(after)}>
              {steps.onTo(steps.names[after])} <ArrowMark />
            </button>
          </p>
        )}
      </main>
      {step !== 'owner' && (
        <>
          <WhereItPoints catalogue={catalogue} />
          {step !== 'work' && <SoFarBar />}
        </>
      )}
    </div>
  );
}

const showPanel = () => document.getElementById('pointing')?.scrollIntoView();

/** On a narrow screen the panel lies below; this keeps the verdict in sight and leads there. */
function SoFarBar() {
  const { adviser, desk } = useSession();
  const { assessment } = adviser.advice.value;
  const { notices } = messages.value;
  if (assessment === null || desk.value === null || isBlank(desk.value.record)) return null;
  if (assessment.kind !== 'assessed') {
    const words = assessment.kind === 'contradiction' ? notices.contradictionShort : notices.unreadableShort;
    return (
      <button type="button" class="so-far-bar" onClick={showPanel}>
        <CautionMark /> {words}
      </button>
    );
  }
  return (
    <button type="button" class="so-far-bar" onClick={showPanel}>
      <Stamp assessed={assessment} />
      <span>{assessment.ranking[0]?.name ?? notices.whereItPoints}</span>
    </button>
  );
}

function StepBody({ desk, catalogue, step }: Props) {
  const { adviser } = useSession();
  const { assessment, applicable } = adviser.advice.value;
  const sections = sectionsOf(step, catalogue, desk.record, applicable);
  switch (step) {
    case 'card':
      return <CardStep record={desk.record} sections={sections} catalogue={catalogue} />;
    case 'history':
    case 'symptoms':
    case 'looks':
      return <QuestionsStep sections={sections} catalogue={catalogue} />;
    case 'readings':
      return <ReadingsStep sections={sections} catalogue={catalogue} />;
    case 'tests':
      return <TestsStep sections={sections} catalogue={catalogue} />;
    case 'next':
      return assessment?.kind === 'assessed' ? <WhatNext assessed={assessment} catalogue={catalogue} /> : <NotYet />;
    case 'verdict':
      return assessment?.kind === 'assessed' ? (
        <VerdictScreen assessed={assessment} catalogue={catalogue} />
      ) : (
        <NotYet />
      );
    case 'work':
      return <WorkStep desk={desk} catalogue={catalogue} />;
    case 'came-back':
      return <CameBackStep desk={desk} catalogue={catalogue} />;
    case 'owner':
      return <OwnerStep desk={desk} catalogue={catalogue} />;
  }
}

/** The reason stands in the panel beside. */
function NotYet() {
  const { notices } = messages.value;
  const { adviser } = useSession();
  const { assessment } = adviser.advice.value;
  return <p class="lead">{assessment === null ? notices.weighing : notices.noVerdict}</p>;
}

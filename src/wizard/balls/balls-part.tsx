/** The balls of this work: what was measured of them, what becomes of them, and what the card's use does to them. */
import type { ComponentChildren } from 'preact';
import type { Joint, JointPart } from '../../ball-grid/answer.ts';
import { judgeBalls } from '../../ball-grid/judge-balls.ts';
import { USUAL_REFERENCE } from '../../ball-grid/judge-life.ts';
import type { WorkOrder } from '../../work-order/schema.ts';
import { factAnswer } from '../desk.ts';
import { language, rulesLanguage } from '../language.ts';
import { useSession } from '../session.ts';
import { sayNumber } from '../words.ts';
import { AlloyField, BallNumberField, VoidsField } from './balls-fields.tsx';
import { JointSection } from './joint-section.tsx';
import { ballsOf } from './keep-balls.ts';
import { LifeStrip } from './life-strip.tsx';
import { ballsWords } from './words.ts';
import '../look/balls.css';

interface Props {
  readonly balls: NonNullable<WorkOrder['balls']>;
  /** the alloy of the work */
  readonly alloy: string | null;
}

export function BallsPart({ balls: { package: kind, name }, alloy }: Props) {
  const { desk } = useSession();
  const words = ballsWords.value;
  if (desk.value === null) return null;
  const joint = judgeBalls(ballsOf(desk.value.record, kind), language.value, { ballAlloy: alloy ?? undefined });
  const of = { kind, joint };
  return (
    <div class="balls">
      <p class="about" lang={rulesLanguage.value === language.value ? undefined : rulesLanguage.value}>
        {words.about(name)}
      </p>
      <section class="balls-part">
        <h3>{words.measures.heading}</h3>
        <div class="balls-fields" data-question>
          <BallNumberField {...of} field="ballMillimetres" />
          <BallNumberField {...of} field="packagePadMillimetres" />
          <BallNumberField {...of} field="boardPadMillimetres" />
          <BallNumberField {...of} field="pitchMillimetres" />
          <AlloyField
            {...of}
            field="ballAlloy"
            none={alloy === null ? words.measures.notSaid : words.measures.asWork(alloy)}
          />
          <AlloyField {...of} field="padAlloy" none={words.measures.asBall} />
        </div>
        <More
          name={words.measures.more}
          open={joint.given.pasteCubicMillimetres !== undefined || joint.given.leftMillimetres !== undefined}
        >
          <BallNumberField {...of} field="pasteCubicMillimetres" />
          <BallNumberField {...of} field="leftMillimetres" />
        </More>
        {joint.shape === null && joint.problems.length === 0 && <p class="about">{words.empty}</p>}
        {joint.shape !== null && <JointSection shape={joint.shape} />}
        <Lines joint={joint} part="shape" />
        <Lines joint={joint} part="mixture" named />
      </section>
      <section class="balls-part">
        <h3>{words.voids.heading}</h3>
        <p class="about">{words.voids.about}</p>
        <div class="balls-fields" data-question>
          <BallNumberField {...of} field="imageMillimetres" />
          <VoidsField {...of} />
        </div>
        <Lines joint={joint} part="voids" />
      </section>
      <Life {...of} />
    </div>
  );
}

function Life({ kind, joint }: { readonly kind: string; readonly joint: Joint }) {
  const { life: words } = ballsWords.value;
  const of = { kind, joint };
  const { swing, hottest, cyclesPerDay } = USUAL_REFERENCE;
  const { given } = joint;
  const days =
    given.referenceCycles ??
    given.referenceShape ??
    given.strainRange ??
    given.dwellMinutes ??
    given.activationElectronvolts;
  return (
    <section class="balls-part">
      <h3>{words.heading}</h3>
      <p class="about">{words.about}</p>
      <OnRecord cyclesPerDay={given.cyclesPerDay} />
      <h4>{words.use}</h4>
      <div class="balls-fields" data-question>
        <BallNumberField {...of} field="swingKelvin" />
        <BallNumberField {...of} field="hottestCelsius" />
        <BallNumberField {...of} field="cyclesPerDay" />
      </div>
      <h4>{words.reference}</h4>
      <p class="about">{words.referenceAbout}</p>
      <div class="balls-fields" data-question>
        <BallNumberField {...of} field="referenceSwingKelvin" usual={String(swing)} />
        <BallNumberField {...of} field="referenceHottestCelsius" usual={String(hottest)} />
        <BallNumberField {...of} field="referenceCyclesPerDay" usual={String(cyclesPerDay)} />
      </div>
      <More name={words.more} about={words.moreAbout} open={days !== undefined}>
        <BallNumberField {...of} field="referenceCycles" />
        <BallNumberField {...of} field="referenceShape" />
        <BallNumberField {...of} field="strainRange" />
        <BallNumberField {...of} field="dwellMinutes" />
        <BallNumberField {...of} field="activationElectronvolts" />
      </More>
      {joint.life !== null && <LifeStrip life={joint.life} />}
      <Lines joint={joint} part="life" />
      <Lines joint={joint} part="engelmaier" named />
    </section>
  );
}

const DAYS_PER_YEAR = 365.25;
const MINUTES_PER_HOUR = 60;

/** What the card's own history says of its heat: how long it ran a day. How often is on no record. */
function OnRecord({ cyclesPerDay }: { readonly cyclesPerDay: number | undefined }) {
  const { desk } = useSession();
  const { life: words } = ballsWords.value;
  if (desk.value === null) return null;
  const { record } = desk.value;
  const [used, years] = [factAnswer(record, 'hours-of-use'), factAnswer(record, 'age-years')];
  const mined = factAnswer(record, 'mined') === true;
  const hours = typeof used === 'number' && typeof years === 'number' ? used / (years * DAYS_PER_YEAR) : null;
  const one = (value: number) => sayNumber(value, { maximumFractionDigits: 1 });
  const lines = [
    ...(hours === null ? [] : [words.runs(one(hours), one(used as number), one(years as number))]),
    ...(hours === null || cyclesPerDay === undefined
      ? []
      : [words.rest(sayNumber((MINUTES_PER_HOUR * hours) / cyclesPerDay, { maximumSignificantDigits: 2 }))]),
    ...(mined ? [words.mined] : []),
  ];
  return lines.length === 0 ? null : <p>{lines.join(' ')}</p>;
}

/** Fields that few need; open where one of them holds something. */
function More({
  name,
  about,
  open,
  children,
}: {
  readonly name: string;
  readonly about?: string;
  readonly open: boolean;
  readonly children: ComponentChildren;
}) {
  return (
    <details class="balls-more" open={open}>
      <summary>{name}</summary>
      {about !== undefined && <p class="about">{about}</p>}
      <div class="balls-fields" data-question>
        {children}
      </div>
    </details>
  );
}

/** What is said of one part, the limits of it last and smaller. */
function Lines({
  joint,
  part,
  named = false,
}: {
  readonly joint: Joint;
  readonly part: JointPart;
  readonly named?: boolean;
}) {
  const said = joint.words.find((one) => one.part === part);
  if (said === undefined) return null;
  return (
    <div class="balls-lines" data-part={part} aria-live="polite">
      {named && <h4>{said.heading}</h4>}
      {said.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

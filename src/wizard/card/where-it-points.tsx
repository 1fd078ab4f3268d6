/** Always in sight: what the answers so far point at, what that makes of the card, and what to do next. */
import { useState } from 'preact/hooks';
import type { Assessed } from '../../assessment.ts';
import type { Site } from '../../knowledge/schema.ts';
import { openWork } from '../../work-order/open-work.ts';
import { openCard, place } from '../address.ts';
import type { Catalogue } from '../catalogue.ts';
import { isBlank } from '../desk.ts';
import { BadRecordNotice, ContradictionNotice, FailureNotice } from '../frame/in-place.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import type { Manner } from '../words.ts';
import { CausesInSight } from './causes-in-sight.tsx';
import { ComesAndGoes } from './comes-and-goes.tsx';
import { NextShort } from './next-short.tsx';
import { SiteMap } from './site-map.tsx';
import { Blank, SoFar } from './so-far.tsx';
import { useMoves } from './use-moves.ts';

interface Props {
  readonly catalogue: Catalogue;
}

export function WhereItPoints({ catalogue }: Props) {
  const { adviser } = useSession();
  const { assessment, pending, failure } = adviser.advice.value;
  const { notices, pointing } = messages.value;
  return (
    <aside class="pointing" aria-label={pointing.label} data-pending={pending} id="pointing">
      {failure !== null && <FailureNotice failure={failure} />}
      {assessment === null && failure === null && <p class="waiting">{notices.weighing}</p>}
      {assessment?.kind === 'contradiction' && <ContradictionNotice contradiction={assessment} catalogue={catalogue} />}
      {assessment?.kind === 'bad-record' && <BadRecordNotice bad={assessment} catalogue={catalogue} />}
      {assessment?.kind === 'assessed' && <Points assessed={assessment} pending={pending} catalogue={catalogue} />}
    </aside>
  );
}

interface PointsProps extends Props {
  readonly assessed: Assessed;
  readonly pending: boolean;
}

function Points({ assessed, pending, catalogue }: PointsProps) {
  const [picked, setPicked] = useState<Site | null>(null);
  const desk = useSession().desk.value;
  const here = openCard(place.value);
  // the verdict itself stands beside the panel there
  const onVerdict = here?.step === 'verdict';
  // nothing is decided and no other check is made while the card lies open in the middle of its work
  const atWork = desk !== null && openWork(desk.record)?.touched === true;
  const { pointing, sites } = messages.value;
  const manner: Manner = { locale: catalogue.shop.locale, currency: assessed.currency };
  const blank = desk !== null && isBlank(desk.record);
  const heading = picked !== null ? sites.causesAt(sites.names[picked]) : blank ? pointing.usual : pointing.label;
  return (
    <>
      {blank ? <Blank /> : !onVerdict && !atWork && <SoFar assessed={assessed} manner={manner} />}
      {!atWork && <NextShort assessed={assessed} catalogue={catalogue} manner={manner} />}
      <CausesNow
        catalogue={catalogue}
        assessed={assessed}
        pending={pending}
        heading={heading}
        picked={picked}
        onPick={setPicked}
      />
    </>
  );
}

interface NowProps extends Props {
  readonly assessed: Assessed;
  readonly pending: boolean;
  readonly heading: string;
  readonly picked: Site | null;
  readonly onPick: (site: Site | null) => void;
}

/** Ahead of the rest: the chances are known well before what they make of the card. */
function CausesNow({ catalogue, assessed, pending, heading, picked, onPick }: NowProps) {
  const { adviser, desk } = useSession();
  const ahead = adviser.ahead.value;
  const points = ahead.points ?? assessed;
  const behind = ahead.points === null ? pending : ahead.pending;
  const moves = useMoves(desk.value, behind ? null : points);
  return (
    <section class="causes-short" data-behind={behind}>
      <h2>{heading}</h2>
      <CausesInSight points={points} assessed={assessed} picked={picked} moves={moves} onWhole={() => onPick(null)} />
      <ComesAndGoes evidence={assessed.evidence} catalogue={catalogue} />
      <SiteMap at="map-in-sight" sites={points.sites} picked={picked} onPick={onPick} />
    </section>
  );
}

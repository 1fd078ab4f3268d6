/** Always in sight: what the answers so far point at, what that makes of the card, and what to do next. */
import type { Assessed } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { isBlank } from '../desk.ts';
import { BadRecordNotice, ContradictionNotice, FailureNotice } from '../frame/in-place.tsx';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import { useSession } from '../session.ts';
import { placeOfCheck } from '../steps.ts';
import { sayPrice } from '../verdict/price-words.ts';
import { isFirm, Stamp } from '../verdict/stamp.tsx';
import { type Manner, sayDays, sayFrequency, sayMinutes, sayMoney, sayPercent } from '../words.ts';
import { ChanceBar } from './chance-bar.tsx';

interface Props {
  readonly catalogue: Catalogue;
}

export function WhereItPoints({ catalogue }: Props) {
  const { adviser } = useSession();
  const { assessment, pending, failure } = adviser.advice.value;
  return (
    <aside class="pointing" aria-label="Where it points" data-pending={pending} id="pointing">
      {failure !== null && <FailureNotice failure={failure} />}
      {assessment === null && failure === null && <p class="waiting">Weighing what is known so far …</p>}
      {assessment?.kind === 'contradiction' && <ContradictionNotice contradiction={assessment} catalogue={catalogue} />}
      {assessment?.kind === 'bad-record' && <BadRecordNotice bad={assessment} catalogue={catalogue} />}
      {assessment?.kind === 'assessed' && <Points assessed={assessment} catalogue={catalogue} />}
    </aside>
  );
}

const SHOWN = 4;

function Points({ assessed, catalogue }: { assessed: Assessed; catalogue: Catalogue }) {
  const { locale } = catalogue.shop;
  const manner: Manner = { locale, currency: assessed.currency };
  const record = useSession().desk.value?.record;
  const blank = record !== undefined && isBlank(record);
  const top = assessed.ranking.slice(0, SHOWN);
  return (
    <>
      {blank ? <Blank /> : <SoFar assessed={assessed} manner={manner} />}
      <NextShort assessed={assessed} catalogue={catalogue} manner={manner} />
      <section class="causes-short">
        <h2>{blank ? 'What such cards usually have' : 'Where it points'}</h2>
        <ol>
          {top.map((cause) => (
            <li key={cause.fault}>
              <span class="cause-name">{cause.name}</span>
              <span class="cause-chance">{sayPercent(cause.chance)}</span>
              <ChanceBar chance={cause.chance} before={cause.before} />
            </li>
          ))}
          <li class="sound">
            <span class="cause-name">Nothing wrong with the card itself</span>
            <span class="cause-chance">{sayPercent(assessed.sound)}</span>
            <ChanceBar chance={assessed.sound} before={null} />
          </li>
        </ol>
      </section>
    </>
  );
}

function Blank() {
  return (
    <section class="so-far">
      <h2>So far</h2>
      <p class="so-far-verdict">Nothing is known yet</p>
      <p class="so-far-because">The first answer starts the weighing; every answer moves it.</p>
    </section>
  );
}

function SoFar({ assessed, manner }: { assessed: Assessed; manner: Manner }) {
  const { draws } = useSession().adviser.advice.value;
  const { verdict, sensitivity } = assessed;
  const option = assessed.options.find(({ id }) => id === verdict.option);
  const sold = option !== undefined && option.floor !== null;
  return (
    <section class="so-far">
      <h2>{isFirm(assessed) ? 'Verdict' : 'If you had to decide now'}</h2>
      <p class="so-far-verdict">
        <Stamp assessed={assessed} />
        <b>{verdict.name}</b>
      </p>
      {sold ? (
        <>
          <p class="so-far-chances">
            works <b>{sayFrequency(option.works)}</b>, still works after {sayDays(assessed.horizonDays)}{' '}
            <b>{sayFrequency(option.holds)}</b>
          </p>
          <p class="so-far-price">{sayPrice(option, manner)}</p>
        </>
      ) : (
        <p class="so-far-because">{verdict.because}</p>
      )}
      {sensitivity !== undefined && (
        <p class="firmness">Stands in {Math.round(100 * sensitivity.stands)} of 100 tries with the figures shaken.</p>
      )}
      {sensitivity === undefined && draws === 0 && <p class="firmness">Testing how firm this is …</p>}
    </section>
  );
}

function NextShort({ assessed, catalogue, manner }: { assessed: Assessed; catalogue: Catalogue; manner: Manner }) {
  const session = useSession();
  const { next } = assessed;
  if (next.kind === 'act') {
    return (
      <section class="next-short">
        <h2>Next</h2>
        <p class="next-name">Act on the verdict</p>
        <p class="next-because">{next.because}</p>
        <button type="button" class="quiet" onClick={() => jumpTo(session, 'verdict')}>
          See the verdict <ArrowMark />
        </button>
      </section>
    );
  }
  const advice = assessed.checks.find(({ check }) => check === next.check);
  const check = catalogue.checks.find(({ id }) => id === next.check);
  const target = check && session.desk.value ? placeOfCheck(check, catalogue, session.desk.value.record) : null;
  return (
    <section class="next-short">
      <h2>Next</h2>
      <p class="next-name">{advice?.name ?? check?.name ?? next.check}</p>
      {advice && (
        <p class="next-worth">
          <b>{sayMinutes(advice.minutes)}</b>
          {advice.worth > 0.5 && (
            <>
              , worth <b>{sayMoney(advice.worth, manner)}</b> more than it costs
            </>
          )}
        </p>
      )}
      <p class="next-because">{next.because}</p>
      <p class="buttons">
        {target !== null && (
          <button type="button" class="main" onClick={() => jumpTo(session, target.step, target.key)}>
            Record it <ArrowMark />
          </button>
        )}
        <button type="button" class="quiet" onClick={() => jumpTo(session, 'next')}>
          How and why
        </button>
      </p>
    </section>
  );
}

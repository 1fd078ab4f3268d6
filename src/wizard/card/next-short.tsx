import type { Assessed } from '../../assessment.ts';
import { openCard, place } from '../address.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { placeOfCheck } from '../steps.ts';
import { type Manner, sayMinutes, sayMoney } from '../words.ts';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
  readonly manner: Manner;
}

/** Less than this is not worth saying. */
const LEAST_WORTH_SAID = 0.5;

export function NextShort({ assessed, catalogue, manner }: Props) {
  const session = useSession();
  const { pointing } = messages.value;
  const { next } = assessed;
  const here = openCard(place.value);
  const onVerdict = here?.step === 'verdict';
  if (next.kind === 'act' && onVerdict) return null;
  if (next.kind === 'act') {
    return (
      <section class="next-short">
        <h2>{pointing.next}</h2>
        <p class="next-name">{pointing.act}</p>
        <p class="next-because">{next.because}</p>
        <button type="button" class="quiet" onClick={() => jumpTo(session, 'verdict')}>
          {pointing.seeVerdict} <ArrowMark />
        </button>
      </section>
    );
  }
  const advice = assessed.checks.find(({ check }) => check === next.check);
  const check = catalogue.checks.find(({ id }) => id === next.check);
  const target = check && session.desk.value ? placeOfCheck(check, catalogue, session.desk.value.record) : null;
  return (
    <section class="next-short">
      <h2>{pointing.next}</h2>
      <p class="next-name">{advice?.name ?? check?.name ?? next.check}</p>
      {advice && (
        <p class="next-worth">
          <b>{sayMinutes(advice.minutes)}</b>
          {advice.worth > LEAST_WORTH_SAID && <>, {pointing.worthMore(sayMoney(advice.worth, manner))}</>}
        </p>
      )}
      <p class="next-because">{next.because}</p>
      <p class="buttons">
        {target !== null && (
          <button type="button" class="main" onClick={() => jumpTo(session, target.step, target.key)}>
            {pointing.recordIt} <ArrowMark />
          </button>
        )}
        <button type="button" class="quiet" onClick={() => jumpTo(session, 'next')}>
          {pointing.howAndWhy}
        </button>
      </p>
    </section>
  );
}

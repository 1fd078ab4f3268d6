import type { Assessed } from '../../assessment.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { sayPrice } from '../verdict/price-words.ts';
import { isFirm, Stamp } from '../verdict/stamp.tsx';
import { type Manner, sayDays, sayFrequency, unbroken } from '../words.ts';

export function Blank() {
  const { pointing } = messages.value;
  return (
    <section class="so-far">
      <h2>{pointing.soFar}</h2>
      <p class="so-far-verdict">{pointing.nothingYet}</p>
      <p class="so-far-because">{pointing.firstAnswer}</p>
    </section>
  );
}

export function SoFar({ assessed, manner }: { readonly assessed: Assessed; readonly manner: Manner }) {
  const { draws } = useSession().adviser.advice.value;
  const { pointing } = messages.value;
  const { verdict, sensitivity } = assessed;
  const option = assessed.options.find(({ id }) => id === verdict.option);
  const sold = option !== undefined && option.floor !== null;
  return (
    <section class="so-far">
      <h2>{isFirm(assessed) ? pointing.verdict : pointing.ifNow}</h2>
      <p class="so-far-verdict">
        <Stamp assessed={assessed} />
        <b>{verdict.name}</b>
      </p>
      {sold ? (
        <>
          <p class="so-far-chances">
            {pointing.works} <b>{sayFrequency(option.works)}</b>, {pointing.stillAfter(sayDays(assessed.horizonDays))}{' '}
            <b>{sayFrequency(option.holds)}</b>
          </p>
          <p class="so-far-price">{sayPrice(option, manner)}</p>
        </>
      ) : (
        <p class="so-far-because">{unbroken(verdict.because)}</p>
      )}
      {sensitivity !== undefined && <p class="firmness">{pointing.stands(Math.round(100 * sensitivity.stands))}</p>}
      {sensitivity === undefined && draws === 0 && <p class="firmness">{pointing.testing}</p>}
    </section>
  );
}

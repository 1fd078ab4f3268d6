import type { Assessed, CheckAdvice } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { messages } from '../language.ts';
import { type Manner, sayMinutes, sayMoney } from '../words.ts';
import { HowTo } from './how-to.tsx';
import { Outcomes } from './outcomes.tsx';
import { RecordResult } from './record-result.tsx';

interface Props {
  readonly advice: CheckAdvice;
  readonly because: string;
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
  readonly manner: Manner;
}

export function ChosenCheck({ advice, because, assessed, catalogue, manner }: Props) {
  const { next } = messages.value;
  const check = catalogue.checks.find(({ id }) => id === advice.check);
  return (
    <section class="chosen">
      <h2>{advice.name}</h2>
      <p class="lead">{advice.purpose}</p>
      <dl class="figures">
        <div>
          <dt>{next.takes}</dt>
          <dd>{sayMinutes(advice.minutes)}</dd>
        </div>
        <div>
          <dt>{next.costs}</dt>
          <dd>{sayMoney(advice.cost, manner)}</dd>
        </div>
        <div>
          <dt>{next.answerWorth}</dt>
          <dd>{sayMoney(advice.gain, manner)}</dd>
        </div>
      </dl>
      <p>{because}</p>
      <RecordResult check={advice.check} catalogue={catalogue} />
      {check && <HowTo of={check} catalogue={catalogue} />}
      {advice.outcomes.length > 0 && <Outcomes advice={advice} assessed={assessed} catalogue={catalogue} />}
    </section>
  );
}

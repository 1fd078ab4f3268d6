import type { Assessed, CheckAdvice } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import type { Manner } from '../words.ts';
import { ChosenCheck } from './chosen-check.tsx';
import { ClosedChecks, DoneChecks, OtherChecks, WaitingRepairs } from './other-checks.tsx';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

const GROUPS: readonly {
  readonly group: 'worth' | 'notWorth' | 'cannotChange';
  readonly states: readonly CheckAdvice['state'][];
}[] = [
  { group: 'worth', states: ['worth-it', 'opens-others'] },
  { group: 'notWorth', states: ['not-worth-its-minutes'] },
  { group: 'cannotChange', states: ['cannot-change-the-decision'] },
];

export function WhatNext({ assessed, catalogue }: Props) {
  const manner: Manner = { locale: catalogue.shop.locale, currency: assessed.currency };
  const { next } = assessed;
  const chosen = next.kind === 'check' ? assessed.checks.find(({ check }) => check === next.check) : undefined;
  const others = assessed.checks.filter((advice) => advice !== chosen);
  const inState = (...states: readonly CheckAdvice['state'][]) => others.filter(({ state }) => states.includes(state));
  return (
    <>
      {chosen !== undefined ? (
        <ChosenCheck advice={chosen} because={next.because} assessed={assessed} catalogue={catalogue} manner={manner} />
      ) : (
        <ActNow because={next.because} />
      )}
      {GROUPS.map(({ group, states }) => (
        <OtherChecks
          group={group === 'worth' && next.kind === 'act' ? 'hardly' : group}
          checks={inState(...states)}
          catalogue={catalogue}
          manner={manner}
          key={group}
        />
      ))}
      <WaitingRepairs options={assessed.options} />
      <DoneChecks done={inState('done')} catalogue={catalogue} />
      <ClosedChecks closed={inState('closed')} catalogue={catalogue} />
    </>
  );
}

function ActNow({ because }: { because: string }) {
  const session = useSession();
  const { next } = messages.value;
  return (
    <section class="chosen">
      <h2>{next.actHeading}</h2>
      <p>{because}</p>
      <button type="button" class="main" onClick={() => jumpTo(session, 'verdict')}>
        {next.seeVerdict} <ArrowMark />
      </button>
    </section>
  );
}

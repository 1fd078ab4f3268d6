import type { CheckAdvice, Option } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { LockMark } from '../frame/marks.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { placeOfCheck } from '../steps.ts';
import { type Manner, sayMinutes, sayMoney } from '../words.ts';
import { byReason } from './by-reason.ts';
import { HowTo } from './how-to.tsx';
import { ReasonWords } from './reason-words.tsx';
import { RecordResult } from './record-result.tsx';

interface OtherProps {
  readonly group: 'worth' | 'hardly' | 'notWorth' | 'cannotChange';
  readonly checks: readonly CheckAdvice[];
  readonly catalogue: Catalogue;
  readonly manner: Manner;
}

export function OtherChecks({ group, checks, catalogue, manner }: OtherProps) {
  const { next } = messages.value;
  if (checks.length === 0) return null;
  return (
    <section class="checks">
      <h2>{next.groups[group]}</h2>
      {group === 'cannotChange' && <p class="about">{next.cannotChangeAbout}</p>}
      <ul>
        {checks.map((advice) => (
          <OtherCheck key={advice.check} advice={advice} catalogue={catalogue} manner={manner} />
        ))}
      </ul>
    </section>
  );
}

function OtherCheck({ advice, catalogue, manner }: { advice: CheckAdvice; catalogue: Catalogue; manner: Manner }) {
  const { next } = messages.value;
  const check = catalogue.checks.find(({ id }) => id === advice.check);
  const { gain, cost, worth } = advice;
  return (
    <li class="other-check" data-state={advice.state}>
      <p class="other-name">
        <b>{advice.name}</b>
        <span class="other-figures">
          {sayMinutes(advice.minutes)}
          {advice.state === 'worth-it' && `, ${next.worth(sayMoney(worth, manner))}`}
          {advice.state === 'not-worth-its-minutes' &&
            `, ${next.gains(sayMoney(gain, manner), sayMoney(cost, manner))}`}
        </span>
        {(advice.state === 'worth-it' || advice.state === 'not-worth-its-minutes') && (
          <GainBar gain={gain} cost={cost} />
        )}
      </p>
      {advice.reasons.map((reason) => (
        <p class="reason" key={reason}>
          {reason}
        </p>
      ))}
      <div class="other-do">
        <RecordResult check={advice.check} catalogue={catalogue} quiet />
        {check && <HowTo of={check} catalogue={catalogue} />}
      </div>
    </li>
  );
}

/** What it brings above, what it costs below, on one scale; repeats the figures beside it. */
function GainBar({ gain, cost }: { gain: number; cost: number }) {
  const most = Math.max(gain, cost, 1);
  return (
    <span class="gain-bar" aria-hidden="true">
      <span data-side="gain" style={{ width: `${(100 * Math.max(0, gain)) / most}%` }} />
      <span data-side="cost" style={{ width: `${(100 * cost) / most}%` }} />
    </span>
  );
}

/** Repairs that may be what the card needs, once somebody has looked. */
export function WaitingRepairs({ options }: { readonly options: readonly Option[] }) {
  const { next } = messages.value;
  const waiting = options.filter((option) => option.waitsFor !== undefined);
  if (waiting.length === 0) return null;
  const byCheck = Map.groupBy(waiting, ({ waitsFor }) => waitsFor!.join(', '));
  return (
    <section class="checks">
      <h2>{next.waiting}</h2>
      <ul>
        {[...byCheck].map(([checks, members]) => (
          <li class="other-check" data-state="closed" key={checks}>
            <p class="reason">
              <LockMark /> {next.waitsFor(checks)}
            </p>
            <p class="closed-names">{members.map(({ name }) => name).join(' · ')}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function DoneChecks({
  done,
  catalogue,
}: {
  readonly done: readonly CheckAdvice[];
  readonly catalogue: Catalogue;
}) {
  const session = useSession();
  if (done.length === 0) return null;
  return (
    <section class="checks">
      <h2>{messages.value.next.groups.done}</h2>
      <ul class="done-names">
        {done.map(({ check, name }) => {
          const view = catalogue.checks.find(({ id }) => id === check);
          const target = view && session.desk.value ? placeOfCheck(view, catalogue, session.desk.value.record) : null;
          return (
            <li key={check}>
              {target === null ? (
                name
              ) : (
                <button type="button" class="quiet" onClick={() => jumpTo(session, target.step, target.key)}>
                  {name}
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** Every reason once, with the checks it closes; a check that is closed for two reasons stands under both. */
export function ClosedChecks({
  closed,
  catalogue,
}: {
  readonly closed: readonly CheckAdvice[];
  readonly catalogue: Catalogue;
}) {
  if (closed.length === 0) return null;
  return (
    <section class="checks">
      <h2>{messages.value.next.groups.closed}</h2>
      <ul>
        {byReason(closed).map(({ reason, names }) => (
          <li class="other-check" data-state="closed" key={reason}>
            <p class="reason">
              <LockMark /> <ReasonWords text={reason} catalogue={catalogue} />
            </p>
            <p class="closed-names">{names.join(' · ')}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

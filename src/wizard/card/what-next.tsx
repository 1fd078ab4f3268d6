import type { Assessed, CheckAdvice } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import { jumpTo } from '../frame/jump.ts';
import { ArrowMark, LockMark } from '../frame/marks.tsx';
import { useSession } from '../session.ts';
import { placeOfCheck } from '../steps.ts';
import { capital, type Manner, sayMinutes, sayMoney, sayPercent, sayVerdict } from '../words.ts';
import { HowTo } from './how-to.tsx';

interface Props {
  readonly assessed: Assessed;
  readonly catalogue: Catalogue;
}

const GROUPS = [
  { title: 'Also worth the minutes', states: ['worth-it', 'opens-others'] },
  { title: 'Not worth the minutes now', states: ['not-worth-its-minutes', 'cannot-change-the-decision'] },
] as const;

export function WhatNext({ assessed, catalogue }: Props) {
  const manner: Manner = { locale: catalogue.shop.locale, currency: assessed.currency };
  const { next } = assessed;
  const chosen = next.kind === 'check' ? assessed.checks.find(({ check }) => check === next.check) : undefined;
  const others = assessed.checks.filter((advice) => advice !== chosen);
  return (
    <>
      {chosen !== undefined ? (
        <Chosen advice={chosen} because={next.because} assessed={assessed} catalogue={catalogue} manner={manner} />
      ) : (
        <ActNow because={next.because} />
      )}
      {GROUPS.map(({ title, states }) => {
        const members = others.filter(({ state }) => (states as readonly string[]).includes(state));
        if (members.length === 0) return null;
        return (
          <section class="checks" key={title}>
            <h2>{title}</h2>
            <ul>
              {members.map((advice) => (
                <OtherCheck key={advice.check} advice={advice} catalogue={catalogue} manner={manner} />
              ))}
            </ul>
          </section>
        );
      })}
      <DoneChecks done={others.filter(({ state }) => state === 'done')} catalogue={catalogue} />
      <ClosedChecks closed={others.filter(({ state }) => state === 'closed')} />
    </>
  );
}

function DoneChecks({ done, catalogue }: { done: readonly CheckAdvice[]; catalogue: Catalogue }) {
  const session = useSession();
  if (done.length === 0) return null;
  return (
    <section class="checks">
      <h2>Done</h2>
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

/** Closed checks under the reason they share. */
function ClosedChecks({ closed }: { closed: readonly CheckAdvice[] }) {
  if (closed.length === 0) return null;
  const byReason = Map.groupBy(closed, ({ reasons }) => reasons[0] ?? '');
  return (
    <section class="checks">
      <h2>Closed for now</h2>
      <ul>
        {[...byReason].map(([reason, members]) => (
          <li class="other-check" data-state="closed" key={reason}>
            <p class="reason">
              <LockMark /> {reason}
            </p>
            <ul class="closed-names">
              {members.map(({ check, name, reasons }) => (
                <li key={check}>
                  <b>{name}</b> {reasons.slice(1).join(' ')}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  );
}

function ActNow({ because }: { because: string }) {
  const session = useSession();
  return (
    <section class="chosen">
      <h2>No check is worth its minutes: act</h2>
      <p>{because}</p>
      <button type="button" class="main" onClick={() => jumpTo(session, 'verdict')}>
        See the verdict <ArrowMark />
      </button>
    </section>
  );
}

interface ChosenProps extends Props {
  readonly advice: CheckAdvice;
  readonly because: string;
  readonly manner: Manner;
}

function Chosen({ advice, because, assessed, catalogue, manner }: ChosenProps) {
  const check = catalogue.checks.find(({ id }) => id === advice.check);
  return (
    <section class="chosen">
      <h2>{advice.name}</h2>
      <p class="lead">{advice.purpose}</p>
      <dl class="figures">
        <div>
          <dt>takes</dt>
          <dd>{sayMinutes(advice.minutes)}</dd>
        </div>
        <div>
          <dt>costs</dt>
          <dd>{sayMoney(advice.cost, manner)}</dd>
        </div>
        <div>
          <dt>its answer is worth</dt>
          <dd>{sayMoney(advice.gain, manner)}</dd>
        </div>
      </dl>
      <p>{because}</p>
      <Record check={advice.check} catalogue={catalogue} />
      {check && <HowTo of={check} catalogue={catalogue} />}
      {advice.outcomes.length > 0 && <Outcomes advice={advice} assessed={assessed} catalogue={catalogue} />}
    </section>
  );
}

function Outcomes({ advice, assessed, catalogue }: { advice: CheckAdvice; assessed: Assessed; catalogue: Catalogue }) {
  const now = assessed.verdict.kind;
  const faultName = (id: string | null) =>
    catalogue.faults.find((fault) => fault.id === id)?.name ?? 'nothing in particular';
  return (
    <div class="outcomes">
      <h3>What each result would do</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">If it shows</th>
            <th scope="col">Chance</th>
            <th scope="col">Then</th>
            <th scope="col">Points at</th>
          </tr>
        </thead>
        <tbody>
          {advice.outcomes.map((outcome) => (
            <tr key={outcome.label} data-turns={outcome.verdict !== now}>
              <th scope="row">{capital(outcome.label)}</th>
              <td class="number">{sayPercent(outcome.chance)}</td>
              <td>
                {sayVerdict(outcome.verdict)}
                {outcome.verdict !== now && <small> turns the verdict</small>}
              </td>
              <td>{faultName(outcome.topFault)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function OtherCheck({ advice, catalogue, manner }: { advice: CheckAdvice; catalogue: Catalogue; manner: Manner }) {
  const check = catalogue.checks.find(({ id }) => id === advice.check);
  return (
    <li class="other-check" data-state={advice.state}>
      <p class="other-name">
        <b>{advice.name}</b>
        <span class="other-figures">
          {sayMinutes(advice.minutes)}
          {advice.state === 'worth-it' && `, worth ${sayMoney(advice.worth, manner)}`}
          {advice.state === 'not-worth-its-minutes' &&
            `, gains ${sayMoney(advice.gain, manner)} for ${sayMoney(advice.cost, manner)}`}
        </span>
      </p>
      {advice.reasons.map((reason) => (
        <p class="reason" key={reason}>
          {reason}
        </p>
      ))}
      <div class="other-do">
        <Record check={advice.check} catalogue={catalogue} quiet />
        {check && <HowTo of={check} catalogue={catalogue} />}
      </div>
    </li>
  );
}

function Record({ check, catalogue, quiet }: { check: string; catalogue: Catalogue; quiet?: boolean }) {
  const session = useSession();
  const view = catalogue.checks.find(({ id }) => id === check);
  const target = view && session.desk.value ? placeOfCheck(view, catalogue, session.desk.value.record) : null;
  if (target === null) return null;
  return (
    <button type="button" class={quiet ? 'quiet' : 'main'} onClick={() => jumpTo(session, target.step, target.key)}>
      Record the result <ArrowMark />
    </button>
  );
}

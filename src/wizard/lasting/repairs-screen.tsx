/** How long the shop's own repairs last: every card the bench keeps, each repair with its curve. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import { lastingMessages } from '../../lasting/messages/messages.ts';
import { tellRelapses, tellRemedies } from '../../lasting/told.ts';
import type { RemediesAnswer } from '../../learning/answer.ts';
import { writePlace } from '../address.ts';
import type { Catalogue } from '../catalogue.ts';
import { Marked } from '../frame/marked.tsx';
import { BackMark } from '../frame/marks.tsx';
import { formatTag, language } from '../language.ts';
import { useSession } from '../session.ts';
import { sayNumber } from '../words.ts';
import { learnFrom } from './learn.ts';
import { Relapses } from './relapses.tsx';
import { RemedyLasting } from './remedy-lasting.tsx';
import { type AllRecords, useRecords } from './use-records.ts';
import '../look/lasting.css';

export function RepairsScreen() {
  const { adviser } = useSession();
  const all = useRecords();
  const words = lastingMessages(language.value);
  const catalogue = adviser.catalogue.value;
  return (
    <main id="questions" class="bench repairs">
      <p class="repairs-back">
        <a href={writePlace({ screen: 'bench' })}>
          <BackMark /> {words.screen.back}
        </a>
      </p>
      <h1 tabIndex={-1}>{words.heading}</h1>
      {all !== null && catalogue !== null ? (
        <Repairs all={all} catalogue={catalogue} />
      ) : (
        <p class="waiting">{words.screen.reading}</p>
      )}
    </main>
  );
}

interface Props {
  readonly all: AllRecords;
  readonly catalogue: Catalogue;
}

type State =
  | { readonly kind: 'weighing'; readonly weighed: number }
  | { readonly kind: 'broke' }
  | { readonly kind: 'told'; readonly answer: RemediesAnswer };

function Repairs({ all, catalogue }: Props) {
  const words = lastingMessages(language.value);
  const invented = all.records.filter((record) => record.invented === true).length;
  const [withInvented, setInvented] = useState(false);
  const [withSilence, setSilence] = useState(false);
  const [round, setRound] = useState(0);
  const [state, setState] = useState<State>({ kind: 'weighing', weighed: 0 });
  const records = useMemo(
    () => all.records.filter((record) => withInvented || record.invented !== true),
    [all, withInvented],
  );
  useEffect(() => {
    setState({ kind: 'weighing', weighed: 0 });
    const learning = learnFrom({
      records,
      silentUntil: withSilence ? new Date().toISOString() : null,
      shop: catalogue.shop,
      language: catalogue.language,
      onProgress: (weighed) => setState({ kind: 'weighing', weighed }),
    });
    let wanted = true;
    void learning.answer.then((answer) => {
      if (wanted) setState(answer === null ? { kind: 'broke' } : { kind: 'told', answer });
    });
    return () => {
      wanted = false;
      learning.stop();
    };
  }, [records, withSilence, catalogue, round]);
  return (
    <>
      {!all.server && <p class="notice">{words.screen.noServer}</p>}
      {all.notRead > 0 && <p class="notice">{words.screen.notRead(sayNumber(all.notRead))}</p>}
      {all.records.length > 0 && (
        <fieldset class="repairs-which">
          <legend>{words.screen.which}</legend>
          {invented > 0 && (
            <label>
              <input type="checkbox" checked={withInvented} onChange={() => setInvented(!withInvented)} />
              {words.screen.withInvented(sayNumber(invented))}
            </label>
          )}
          <label>
            <input type="checkbox" checked={withSilence} onChange={() => setSilence(!withSilence)} />
            {words.screen.withSilence(sayNumber(catalogue.shop.warrantyDays))}
          </label>
        </fieldset>
      )}
      <p class="repairs-state" role="status">
        {state.kind === 'weighing' &&
          records.length > 0 &&
          words.screen.weighing(sayNumber(Math.min(state.weighed + 1, records.length)), sayNumber(records.length))}
        {state.kind === 'told' && state.answer.remedies.length > 0 && words.read(sayNumber(state.answer.records))}
      </p>
      {state.kind === 'broke' && (
        <section class="notice">
          <p>{words.screen.broke}</p>
          <button type="button" onClick={() => setRound(round + 1)}>
            {words.screen.again}
          </button>
        </section>
      )}
      {state.kind === 'told' && <Answer answer={state.answer} catalogue={catalogue} />}
    </>
  );
}

function Answer({ answer, catalogue }: { readonly answer: RemediesAnswer; readonly catalogue: Catalogue }) {
  const messages = lastingMessages(language.value);
  const tongue = { messages, locale: formatTag(catalogue.shop.locale) };
  if (answer.remedies.length === 0) return <NothingYet />;
  return (
    <>
      <p class="about">{messages.lead}</p>
      {tellRemedies(answer, tongue).map((told) => (
        <RemedyLasting told={told} messages={messages} key={told.remedy} />
      ))}
      <Relapses told={tellRelapses(answer, tongue)} messages={messages} />
      <p class="about">{messages.noTrial}</p>
      {answer.relapse.length > 0 && (
        <p class="about">
          <Marked text={messages.screen.toKeep} />
        </p>
      )}
    </>
  );
}

function NothingYet() {
  const { empty } = lastingMessages(language.value);
  return (
    <div class="empty">
      <h2>{empty.heading}</h2>
      <p class="lead">{empty.lead}</p>
      <ol class="empty-way">
        {empty.way.map(({ name, does }) => (
          <li key={name}>
            <b>{name}</b> <span>{does}</span>
          </li>
        ))}
      </ol>
      <p class="about">{empty.many}</p>
    </div>
  );
}

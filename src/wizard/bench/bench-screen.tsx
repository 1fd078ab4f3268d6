/** Every card in hand. */
import { useEffect, useState } from 'preact/hooks';
import type { Assessed, Assessment } from '../../assessment.ts';
import { writePlace } from '../address.ts';
import { isBlank } from '../desk.ts';
import { onceDrawn, standOnFirst } from '../frame/jump.ts';
import { ArrowMark } from '../frame/marks.tsx';
import type { Listed } from '../keeper.ts';
import { useSession } from '../session.ts';
import { Stamp } from '../verdict/stamp.tsx';
import { sayWhen } from '../words.ts';
import { WorkedCases } from './worked-cases.tsx';

type Loaded = { readonly cards: readonly Listed[]; readonly server: boolean };

export function BenchScreen() {
  const { keeper, newCard, adviser, shopProblem } = useSession();
  const [loaded, setLoaded] = useState<Loaded | null>(null);
  useEffect(() => {
    void keeper.list().then(setLoaded);
  }, [keeper]);
  const startCard = () => {
    newCard();
    onceDrawn(standOnFirst);
  };
  const locale = adviser.catalogue.value?.shop.locale ?? 'en';
  return (
    <main id="questions" class="bench">
      <header class="bench-head">
        <h1 tabIndex={-1}>On the bench</h1>
        <button type="button" class="main" onClick={startCard}>
          New card <ArrowMark />
        </button>
      </header>
      {loaded !== null && !loaded.server && (
        <p class="notice">
          The server does not answer, so this list holds only what is kept on this device. Start it again with{' '}
          <code>npm start</code>; what you type meanwhile is kept here and sent then.
        </p>
      )}
      {shopProblem !== null && (
        <p class="notice">
          The shop profile cannot be read, so the invented figures shipped with the tool are used. {shopProblem}
        </p>
      )}
      {loaded?.cards.length === 0 && <EmptyBench />}
      {loaded !== null && loaded.cards.length > 0 && (
        <ul class="tickets">
          {loaded.cards.map((card) => (
            <Ticket card={card} locale={locale} key={card.id} />
          ))}
        </ul>
      )}
      <WorkedCases />
    </main>
  );
}

function EmptyBench() {
  return (
    <div class="empty">
      <p class="lead">
        Put a dead card on the bench and write down what you know: what it is, what it has been through, what it does.
        After every answer you see what it points at, which check is worth its minutes, and whether the repair is worth
        the heat. Nothing has to be answered; what you leave out only leaves the verdict less sure.
      </p>
    </div>
  );
}

function Ticket({ card, locale }: { card: Listed; locale: string }) {
  const assessment = useAssessmentOf(card);
  return (
    <li>
      <a class="ticket" href={writePlace({ screen: 'card', id: card.id, step: 'card' })}>
        <span class="ticket-hole" aria-hidden="true" />
        <span class="ticket-body">
          <b class="ticket-title">{card.title}</b>
          <span class="ticket-words">{wordsOn(assessment)}</span>
          <span class="ticket-when">
            changed {sayWhen(card.changed, locale, new Date())}
            {card.invented && ', invented'}
            {card.unsaved && ', kept on this device only'}
          </span>
        </span>
        {assessment !== 'blank' && assessment?.kind === 'assessed' && <Stamp assessed={assessment} />}
      </a>
    </li>
  );
}

function nextWords({ next, checks }: Assessed): string | null {
  if (next.kind === 'act') return null;
  const advice = checks.find(({ check }) => check === next.check);
  return advice === undefined ? null : `Next: ${advice.name}`;
}

function wordsOn(assessment: Assessment | 'blank' | null | undefined): string {
  if (assessment === 'blank') return 'nothing known yet';
  switch (assessment?.kind) {
    case undefined:
      return assessment === null ? 'no verdict: open it to see why' : 'weighing …';
    case 'assessed':
      return nextWords(assessment) ?? assessment.verdict.name;
    case 'contradiction':
      return 'its findings contradict each other';
    case 'bad-record':
      return 'something on it cannot be read';
  }
}

/** undefined: not there yet · null: there is none */
function useAssessmentOf(card: Listed): Assessment | 'blank' | null | undefined {
  const { keeper, adviser } = useSession();
  const [assessment, setAssessment] = useState<Assessment | 'blank' | null | undefined>(undefined);
  useEffect(() => {
    let wanted = true;
    const look = async () => {
      const record = await keeper.peek(card.id);
      const found = record === null ? null : isBlank(record) ? 'blank' : await adviser.assessOnce(record);
      if (wanted) setAssessment(found);
    };
    void look();
    return () => {
      wanted = false;
    };
  }, [card.id, card.changed, keeper, adviser]);
  return assessment;
}

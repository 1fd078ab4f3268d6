/** Every card in hand. */
import { useEffect, useState } from 'preact/hooks';
import type { Assessed, Assessment } from '../../assessment.ts';
import { writePlace } from '../address.ts';
import { isBlank } from '../desk.ts';
import { onceDrawn, onceThere, standOnFirst } from '../frame/jump.ts';
import { Marked } from '../frame/marked.tsx';
import { ArrowMark } from '../frame/marks.tsx';
import type { Listed } from '../keeper.ts';
import { messages } from '../language.ts';
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
    // there is no question to stand on before the knowledge is there
    onceThere(adviser.catalogue, () => onceDrawn(standOnFirst));
  };
  const words = messages.value.bench;
  const locale = adviser.catalogue.value?.shop.locale ?? 'en';
  return (
    <main id="questions" class="bench">
      <header class="bench-head">
        <h1 tabIndex={-1}>{words.heading}</h1>
        <button type="button" class="main" onClick={startCard}>
          {words.newCard} <ArrowMark />
        </button>
      </header>
      {loaded !== null && !loaded.server && (
        <p class="notice">
          <Marked text={words.noServer} />
        </p>
      )}
      {shopProblem !== null && (
        <p class="notice">
          {words.shopBroken} <span lang="en">{shopProblem}</span>
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
      <p class="lead">{messages.value.bench.empty}</p>
    </div>
  );
}

function Ticket({ card, locale }: { card: Listed; locale: string }) {
  const assessment = useAssessmentOf(card);
  const words = messages.value.bench;
  return (
    <li>
      <a class="ticket" href={writePlace({ screen: 'card', id: card.id, step: 'card' })}>
        <span class="ticket-hole" aria-hidden="true" />
        <span class="ticket-body">
          <b class="ticket-title">{card.title}</b>
          <span class="ticket-words">{wordsOn(assessment)}</span>
          <span class="ticket-when">
            {[
              words.changed(sayWhen(card.changed, locale, new Date())),
              ...(card.invented ? [messages.value.frame.invented] : []),
              ...(card.unsaved ? [words.onDeviceOnly] : []),
            ].join(', ')}
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
  return advice === undefined ? null : messages.value.bench.next(advice.name);
}

function wordsOn(assessment: Assessment | 'blank' | null | undefined): string {
  const words = messages.value.bench;
  if (assessment === 'blank') return words.nothingKnown;
  switch (assessment?.kind) {
    case undefined:
      return assessment === null ? words.noVerdict : words.weighing;
    case 'assessed':
      return nextWords(assessment) ?? assessment.verdict.name;
    case 'contradiction':
      return words.contradicts;
    case 'bad-record':
      return words.unreadable;
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

/** Every card in hand. */
import { signal } from '@preact/signals';
import { useEffect, useState } from 'preact/hooks';
import { writePlace } from '../address.ts';
import { onceDrawn, onceThere, standOnFirst } from '../frame/jump.ts';
import { Marked } from '../frame/marked.tsx';
import { ArrowMark } from '../frame/marks.tsx';
import type { Listed } from '../keeper.ts';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { sayStamp } from '../words.ts';
import { EmptyBench } from './empty-bench.tsx';
import { arrange, type Row, rowOf, type Sort } from './rows.ts';
import { ShopNotice } from './shop-notice.tsx';
import { sayNews, sayStage, Ticket } from './ticket.tsx';
import { TicketTools } from './ticket-tools.tsx';
import { WorkedCases } from './worked-cases.tsx';

type Loaded = { readonly cards: readonly Listed[]; readonly server: boolean };

/** How the list is looked at stays as it was while a card is open. */
const query = signal('');
const sort = signal<Sort>('changed');
const archived = signal(false);

export function BenchScreen() {
  const { keeper, newCard, adviser } = useSession();
  const [loaded, setLoaded] = useState<Loaded | null>(null);
  const { state } = keeper.keeping.value;
  useEffect(() => {
    let wanted = true;
    void keeper.list().then((list) => wanted && setLoaded(list));
    return () => {
      wanted = false;
    };
  }, [keeper, state === 'saved']);
  const startCard = () => {
    newCard();
    // there is no question to stand on before the knowledge is there
    onceThere(adviser.catalogue, () => onceDrawn(standOnFirst));
  };
  const { bench } = messages.value;
  return (
    <main id="questions" class="bench">
      <header class="bench-head">
        <h1 tabIndex={-1}>{bench.heading}</h1>
        <div class="bench-ways">
          <a href={writePlace({ screen: 'repairs' })}>{bench.ownRepairs}</a>
          <button type="button" class="main" onClick={startCard}>
            {bench.newCard} <ArrowMark />
          </button>
        </div>
      </header>
      {loaded !== null && !loaded.server && (
        <p class="notice">
          <Marked text={bench.noServer} />
        </p>
      )}
      <ShopNotice />
      {loaded?.cards.length === 0 && <EmptyBench />}
      {loaded !== null && loaded.cards.length > 0 && <Tickets loaded={loaded} onChange={setLoaded} />}
      {loaded !== null && <WorkedCases first={loaded.cards.length === 0} />}
    </main>
  );
}

interface TicketsProps {
  readonly loaded: Loaded;
  readonly onChange: (loaded: Loaded) => void;
}

function Tickets({ loaded, onChange }: TicketsProps) {
  const { keeper, adviser, book } = useSession();
  const { bench } = messages.value;
  const [said, setSaid] = useState<{ readonly words: string; readonly undo: (() => void) | null } | null>(null);
  const catalogue = adviser.catalogue.value;
  const shown = loaded.cards.filter((card) => card.archived === archived.value);
  useEffect(
    () => (catalogue === null ? undefined : book.follow(shown, catalogue.language)),
    [book, catalogue?.language, loaded, archived.value],
  );
  const rows = arrange(
    shown.map((card) => rowOf(card, book, catalogue, new Date())),
    { query: query.value, sort: sort.value, words: wordsOf },
  );
  const put = async (card: Listed, away: boolean) => {
    const done = await keeper.archive(card.id, away);
    if (!done) {
      setSaid({ words: bench.notArchived(card.title), undo: null });
      return;
    }
    onChange(await keeper.list());
    const words = away ? bench.archivedNow(card.title) : bench.backNow(card.title);
    setSaid({ words, undo: () => void put(card, !away) });
  };
  return (
    <>
      <TicketTools
        query={query.value}
        onQuery={(text) => {
          query.value = text;
        }}
        sort={sort.value}
        onSort={(by) => {
          sort.value = by;
        }}
        archived={archived.value}
        counts={{ inHand: countOf(loaded, false), archived: countOf(loaded, true) }}
        onArchived={(which) => {
          archived.value = which;
        }}
      />
      <p class="bench-said" role="status">
        {said?.words}
        {said?.undo && (
          <button type="button" class="quiet" onClick={said.undo}>
            {messages.value.frame.undo}
          </button>
        )}
      </p>
      {rows.length === 0 && <p class="lead">{query.value === '' ? bench.noneHere : bench.noneFound(query.value)}</p>}
      <ul class="tickets">
        {rows.map((row) => (
          <Ticket
            row={row}
            locale={catalogue?.shop.locale ?? 'en'}
            onArchive={() => void put(row.card, !row.card.archived)}
            key={row.card.id}
          />
        ))}
      </ul>
    </>
  );
}

const countOf = ({ cards }: Loaded, away: boolean): number => cards.filter((card) => card.archived === away).length;

/** What a search looks through: everything the ticket says, and the likeliest cause. */
function wordsOf(row: Row): string {
  const { card, stage, assessed } = row;
  return [
    card.title,
    card.id,
    stage === null ? '' : sayStage(stage, row),
    sayNews(row),
    ...(assessed === null
      ? []
      : [assessed.verdict.name, sayStamp(assessed.verdict.kind), assessed.ranking[0]?.name ?? '']),
  ].join(' ');
}

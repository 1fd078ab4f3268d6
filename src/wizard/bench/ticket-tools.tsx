import { messages } from '../language.ts';
import { SORTS, type Sort } from './rows.ts';

interface Props {
  readonly query: string;
  readonly onQuery: (text: string) => void;
  readonly sort: Sort;
  readonly onSort: (sort: Sort) => void;
  readonly archived: boolean;
  readonly counts: { readonly inHand: number; readonly archived: number };
  readonly onArchived: (archived: boolean) => void;
}

/** Search, order, and whether the cards in hand or the archived ones are listed. */
export function TicketTools({ query, onQuery, sort, onSort, archived, counts, onArchived }: Props) {
  const { bench } = messages.value;
  const shelves = [
    { away: false, name: bench.inHand(counts.inHand) },
    { away: true, name: bench.inArchive(counts.archived) },
  ];
  return (
    <div class="ticket-tools">
      <label class="tool">
        <span class="field-label">{bench.search}</span>
        <span class="field-box">
          <input
            type="search"
            value={query}
            autocomplete="off"
            spellcheck={false}
            onInput={({ currentTarget }) => onQuery(currentTarget.value)}
          />
        </span>
      </label>
      <label class="tool">
        <span class="field-label">{bench.sortBy}</span>
        <select value={sort} onChange={({ currentTarget }) => onSort(currentTarget.value as Sort)}>
          {SORTS.map((by) => (
            <option value={by} key={by}>
              {bench.sorts[by]}
            </option>
          ))}
        </select>
      </label>
      {(counts.archived > 0 || archived) && (
        <fieldset class="shelves">
          <legend class="visually-hidden">{bench.shelves}</legend>
          {shelves.map(({ away, name }) => (
            <label class="choice" key={name}>
              <input type="radio" name="shelf" checked={archived === away} onChange={() => onArchived(away)} />
              <span class="choice-name">{name}</span>
            </label>
          ))}
        </fieldset>
      )}
    </div>
  );
}

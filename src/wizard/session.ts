/** The open card and everything around it: who keeps it, who assesses it, how it is changed. Screens read it and call it. */
import { type ReadonlySignal, signal } from '@preact/signals';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Record } from '../record/schema.ts';
import { goTo, openCard, type Place, place } from './address.ts';
import type { Adviser } from './adviser.ts';
import { type CardBook, createCardBook } from './bench/card-book.ts';
import { change, type Desk, openDesk, redo, undo } from './desk.ts';
import { same } from './device.ts';
import type { Drafts } from './drafts.ts';
import type { Keeper } from './keeper.ts';
import { copyOfCase, newRecord } from './new-record.ts';
import type { ShopProblem } from './shop-answer.ts';
import type { StepId } from './steps.ts';

export type Opening = 'none' | 'opening' | 'open' | 'missing';

export interface CaseListed {
  readonly id: string;
  readonly title: string;
  readonly why: string;
}

type Aside = ReadonlyMap<string, string | null>;

export interface Session {
  readonly adviser: Adviser;
  readonly keeper: Keeper;
  readonly drafts: Drafts;
  readonly desk: ReadonlySignal<Desk | null>;
  readonly opening: ReadonlySignal<Opening>;
  readonly book: CardBook;
  /** the shop's own profile could not be read, and why */
  readonly shopProblem: ShopProblem | null;
  /** `field` joins keystrokes in one field into one step to undo */
  edit(step: (record: Record, at: string) => Record, field?: string): void;
  /** One step with what it leaves aside unread (text) or is done with (null): undo takes back both. */
  editWithDrafts(step: (record: Record, at: string) => Record, aside: Aside): void;
  undo(): void;
  redo(): void;
  go(step: StepId): void;
  newCard(): void;
  /** opens what the address names */
  follow(to: Place): Promise<void>;
  /** shows the version that the server held */
  settle(which: 'mine' | 'theirs'): Promise<void>;
  listCases(): Promise<readonly CaseListed[]>;
}

export interface Around {
  readonly adviser: Adviser;
  readonly keeper: Keeper;
  readonly drafts: Drafts;
  readonly fetch: (path: string) => Promise<Response>;
  readonly now: () => Date;
  readonly chance: () => number;
  readonly locale: string;
  readonly shopProblem: ShopProblem | null;
}

export function createSession(around: Around): Session {
  const { adviser, keeper, drafts, fetch, now, chance, locale } = around;
  const desk = signal<Desk | null>(null);
  const opening = signal<Opening>('none');

  function show(record: Record): void {
    adviser.reset();
    drafts.open(record.id);
    desk.value = openDesk(record);
    opening.value = 'open';
    adviser.ask(record);
  }

  function put(next: Desk): void {
    if (next === desk.value) return;
    const from = place.value;
    const mine = from.screen === 'case' ? asOwn(next) : next;
    desk.value = mine;
    if (from.screen === 'case') {
      drafts.carry(mine.record.id);
      goTo({ screen: 'card', id: mine.record.id, step: from.step }, 'replace');
    }
    keeper.keep(mine.record);
    adviser.ask(mine.record);
  }

  /** A worked case becomes a card of one's own, what it was before the first answer included, so that undo leads back there. */
  function asOwn(next: Desk): Desk {
    const [at, luck] = [now(), chance()];
    return {
      ...next,
      record: copyOfCase(next.record, at, luck),
      past: next.past.map((one) => copyOfCase(one, at, luck)),
    };
  }

  async function json(path: string): Promise<{ [key: string]: unknown } | null> {
    try {
      const response = await fetch(path);
      const body: unknown = response.ok ? await response.json() : null;
      return typeof body === 'object' && body !== null ? { ...body } : null;
    } catch {
      return null;
    }
  }

  // two windows on one card stay in step: what the other one writes is shown here, and can be taken back like an answer
  keeper.changedInAnotherWindow.subscribe((record) => {
    if (record === null || desk.value?.record.id !== record.id || place.value.screen !== 'card') return;
    desk.value = change(desk.value, record);
    adviser.ask(record);
  });

  /** by the record that a step led to: the drafts before it and after it */
  const asides = new WeakMap<Record, { readonly before: Aside; readonly after: Aside }>();

  function layAside(aside: Aside | undefined): void {
    for (const [field, text] of aside ?? []) drafts.set(field, text);
  }

  const readCase = async (id: string) => recordIn(await json(`api/cases/${id}`));

  return {
    adviser,
    keeper,
    drafts,
    book: createCardBook({ keeper, adviser }),
    shopProblem: around.shopProblem,
    desk,
    opening,
    edit(step, field) {
      if (desk.value === null) return;
      put(change(desk.value, step(desk.value.record, now().toISOString()), field ?? null));
    },
    editWithDrafts(step, after) {
      if (desk.value === null) return;
      const { record } = desk.value;
      const before = new Map([...after.keys()].map((field) => [field, drafts.texts.value.get(field) ?? null]));
      const next = step(record, now().toISOString());
      layAside(after);
      // what only went aside is a step to undo, too
      put(change(desk.value, next === record ? { ...record } : next));
      asides.set(desk.value.record, { before, after });
    },
    undo() {
      if (desk.value === null) return;
      const { record } = desk.value;
      put(undo(desk.value));
      if (desk.value.record !== record) layAside(asides.get(record)?.before);
    },
    redo() {
      if (desk.value === null) return;
      const { record } = desk.value;
      put(redo(desk.value));
      if (desk.value.record !== record) layAside(asides.get(desk.value.record)?.after);
    },
    go(step) {
      const card = openCard(place.value);
      if (card !== null) goTo({ ...card, step });
    },
    newCard() {
      const record = newRecord(now(), chance(), locale);
      keeper.keep(record);
      show(record);
      goTo({ screen: 'card', id: record.id, step: 'card' });
    },
    async follow(to) {
      if (to.screen === 'bench' || to.screen === 'repairs') {
        desk.value = null;
        opening.value = 'none';
        adviser.reset();
        return;
      }
      if (desk.value?.record.id === to.id) return;
      opening.value = 'opening';
      desk.value = null;
      const record = to.screen === 'case' ? await readCase(to.id) : ((await keeper.open(to.id))?.record ?? null);
      const still = place.value;
      if (still.screen !== to.screen || still.id !== to.id || desk.value !== null) return;
      if (record === null) opening.value = 'missing';
      else show(record);
    },
    async settle(which) {
      const record = await keeper.settle(which);
      const open = desk.value;
      if (record === null || open?.record.id !== record.id || same(record, open.record)) return;
      // what was typed here stays one undo away
      put(change(open, record));
    },
    async listCases() {
      const body = await json('api/cases');
      const list = Array.isArray(body?.cases) ? (body.cases as { [key: string]: unknown }[]) : [];
      return list.flatMap(({ id, title, why }) =>
        typeof id === 'string' && typeof title === 'string'
          ? [{ id, title, why: typeof why === 'string' ? why : '' }]
          : [],
      );
    },
  };
}

function recordIn(body: { [key: string]: unknown } | null): Record | null {
  const record = (body?.record ?? body) as Record | null;
  return record !== null && Array.isArray(record.timeline) ? record : null;
}

export const SessionContext = createContext<Session | null>(null);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error('a screen was rendered outside the session');
  return session;
}

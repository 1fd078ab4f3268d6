/** Where a bench's records and its shop profile live. Every version of a record is kept; nothing is overwritten. */
import type { Problem } from '../knowledge/knowledge.ts';
import type { ParsedRecord } from '../record/parse.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';

/** What is wrong with a record, where, and what to do. */
export type Issues = Extract<ParsedRecord, { readonly ok: false }>['issues'];

export interface Listed {
  readonly id: string;
  readonly title: string;
  /** when the current revision was stored, ISO 8601 in UTC */
  readonly changed: string;
  /** counts up from 1 with every stored change */
  readonly revision: number;
  readonly archived: boolean;
  readonly invented: boolean;
}

export interface Stored {
  readonly record: CardRecord;
  readonly revision: number;
  readonly changed: string;
  readonly archived: boolean;
}

/** A stored text that no longer reads as a record is shown as it is, with what is wrong with it; it is not dropped. */
export type Found =
  | { readonly kind: 'found'; readonly stored: Stored }
  | {
      readonly kind: 'unreadable';
      readonly revision: number;
      readonly text: string;
      readonly issues: Issues;
    }
  | { readonly kind: 'missing' };

export type Put =
  | { readonly kind: 'stored'; readonly revision: number }
  /** somebody stored another version meanwhile; nothing was changed */
  | { readonly kind: 'conflict'; readonly current: Found }
  | { readonly kind: 'bad-record'; readonly issues: Issues };

export type FoundShop =
  | { readonly ok: true; readonly shop: Shop }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export interface Store {
  /** the folder that holds it all */
  readonly folder: string;
  /** last changed first; archived ones too, marked so */
  list(): readonly Listed[];
  /** the current revision, or an earlier one */
  get(id: string, revision?: number): Found;
  /**
   * Stores a new revision of a record. `basedOn` is the revision the change started from, null for a record that is new.
   * What equals the current revision is not stored again. Parses what it is given.
   */
  put(record: unknown, basedOn: number | null): Put;
  /** false: there is no such record */
  archive(id: string, archived: boolean): boolean;
  /** every revision, oldest first */
  history(id: string): readonly { readonly revision: number; readonly changed: string }[];
  /** read anew each time: the user edits the file */
  shop(): FoundShop;
  putShop(shop: unknown): FoundShop;
  close(): void;
}

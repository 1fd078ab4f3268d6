/** The store on one machine: records in an SQLite file, the shop profile in a JSON file beside it. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { readJson } from '../knowledge/load.ts';
import { parseRecord } from '../record/parse.ts';
import { migrate } from './migrations.ts';
import { openShopFile } from './shop-file.ts';
import type { Found, Put, Store } from './store.ts';

const BUSY_MILLISECONDS = 5000;

export interface StoreOptions {
  /** made where it is missing */
  readonly folder: string;
  /** the shop profile a new folder starts with */
  readonly shopTemplate: string;
  readonly now?: () => Date;
}

interface Row {
  readonly revision: number;
  readonly changed: string;
  readonly archived: number;
  readonly body: string;
}

/** Throws where the folder cannot be used: the message says which and why. */
export function openStore({ folder, shopTemplate, now = () => new Date() }: StoreOptions): Store {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, 'records.sqlite');
  const shop = openShopFile(join(folder, 'shop.json'), shopTemplate);
  const database = new DatabaseSync(path, { timeout: BUSY_MILLISECONDS });
  try {
    // FULL: a stored record is on the disk before the answer goes out, a power cut notwithstanding
    database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;');
    migrate(database, path);
  } catch (error) {
    database.close();
    throw error;
  }

  const list = database.prepare(
    'SELECT id, title, changed, revision, archived, invented FROM records ORDER BY changed DESC, id',
  );
  const current = database.prepare(
    `SELECT r.revision, v.changed, r.archived, v.body FROM records r
     JOIN revisions v ON v.id = r.id AND v.revision = r.revision WHERE r.id = ?`,
  );
  const earlier = database.prepare(
    `SELECT v.revision, v.changed, r.archived, v.body FROM records r
     JOIN revisions v ON v.id = r.id WHERE r.id = ? AND v.revision = ?`,
  );
  const history = database.prepare('SELECT revision, changed FROM revisions WHERE id = ? ORDER BY revision');
  const addRecord = database.prepare(
    `INSERT INTO records (id, revision, title, changed, invented) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (id) DO UPDATE SET revision = excluded.revision, title = excluded.title,
       changed = excluded.changed, invented = excluded.invented`,
  );
  const addRevision = database.prepare('INSERT INTO revisions (id, revision, changed, body) VALUES (?, ?, ?, ?)');
  const archive = database.prepare('UPDATE records SET archived = ? WHERE id = ?');

  const put = (value: unknown, basedOn: number | null): Put => {
    const parsed = parseRecord(value);
    if (!parsed.ok) return { kind: 'bad-record', issues: parsed.issues };
    const { record } = parsed;
    const body = JSON.stringify(record);
    database.exec('BEGIN IMMEDIATE');
    try {
      const before = current.get(record.id) as Row | undefined;
      if (before && before.body === body) {
        database.exec('ROLLBACK');
        return { kind: 'stored', revision: before.revision };
      }
      if (before && before.revision !== basedOn) {
        database.exec('ROLLBACK');
        return { kind: 'conflict', current: read(before) };
      }
      const revision = (before?.revision ?? 0) + 1;
      const changed = now().toISOString();
      addRecord.run(record.id, revision, record.title, changed, record.invented === true ? 1 : 0);
      addRevision.run(record.id, revision, changed, body);
      database.exec('COMMIT');
      return { kind: 'stored', revision };
    } catch (error) {
      if (database.isTransaction) database.exec('ROLLBACK');
      throw error;
    }
  };

  return {
    folder,
    list: () =>
      list.all().map((row) => ({
        id: row.id as string,
        title: row.title as string,
        changed: row.changed as string,
        revision: row.revision as number,
        archived: row.archived === 1,
        invented: row.invented === 1,
      })),
    get(id, revision) {
      const row = revision === undefined ? current.get(id) : earlier.get(id, revision);
      return row ? read(row as unknown as Row) : { kind: 'missing' };
    },
    put,
    archive: (id, archived) => archive.run(archived ? 1 : 0, id).changes > 0,
    history: (id) =>
      history.all(id).map((row) => ({ revision: row.revision as number, changed: row.changed as string })),
    shop: shop.read,
    putShop: shop.write,
    close: () => database.close(),
  };
}

function read({ revision, changed, archived, body }: Row): Found {
  const json = readJson(body);
  if (!json.ok) {
    const { wrong, todo } = json;
    return { kind: 'unreadable', revision, text: body, issues: [{ path: '', wrong, todo }] };
  }
  const parsed = parseRecord(json.value);
  if (!parsed.ok) return { kind: 'unreadable', revision, text: body, issues: parsed.issues };
  return { kind: 'found', stored: { record: parsed.record, revision, changed, archived: archived === 1 } };
}

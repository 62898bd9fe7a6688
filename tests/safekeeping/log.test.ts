import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';

const SAY = `
  import { log, logAsServer, logRequest } from './lib/work/log.ts';
  if (process.argv.at(-1) === 'server') logAsServer();
  log.info({ headers: { authorization: 'Bearer a1', cookie: 'b1', 'set-cookie': 'c1', accept: 'text/html' } }, 'deep');
  log.info({ password: 'd1', user: { token: 'e1', name: 'Ann' }, cookie: 'f1' }, 'flat');
  const began = performance.now();
  logRequest({ method: 'GET', url: 'http://localhost/api/v1/fleet?token=g1' }, 200, { began });
  logRequest({ method: 'POST', url: 'http://localhost/api/v1/imports?token=h1' }, 200, { began });
  logRequest({ method: 'GET', url: '/api/v1/units/E-1' }, 404, { began });
  logRequest({ method: 'GET', url: '/' }, 500, { began });
`;

/** What a process of its own says on stderr, line by line. */
function said(as: string, level?: string): Record<string, unknown>[] {
  const { stderr, stdout } = spawnSync(
    process.execPath,
    ['--import', 'tsx', '--input-type=module', '-e', SAY, as],
    { encoding: 'utf8', env: { ...process.env, CLEANBY_LOG: level } },
  );
  expect(stdout).toBe('');
  return stderr
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Record<string, unknown>);
}

describe('the log', () => {
  it('says of a server which requests changed something or failed, one line each', () => {
    const requests = said('server').filter(({ msg }) => msg === 'request');
    expect(requests.map(({ method, route, status, level }) => [method, route, status, level])).toEqual([
      ['POST', '/api/v1/imports', 200, 30],
      ['GET', '/api/v1/units/E-1', 404, 30],
      ['GET', '/', 500, 50],
    ]);
    expect(requests.every(({ ms }) => typeof ms === 'number')).toBe(true);
  });

  it('holds no secret, wherever it stands', () => {
    const lines = said('server', 'trace');
    expect(lines.filter(({ msg }) => msg === 'request')).toHaveLength(4);
    expect(JSON.stringify(lines)).not.toMatch(/[a-h]1"|Bearer/);
    expect(lines[0]).toMatchObject({ headers: { authorization: '(secret)', accept: 'text/html' } });
    expect(lines[1]).toMatchObject({ user: { token: '(secret)', name: 'Ann' } });
  });

  it('says of a command only what is amiss, and what CLEANBY_LOG asks for', () => {
    expect(said('command').map(({ level }) => level)).toEqual([50]);
    expect(said('command', 'silent')).toEqual([]);
    expect(said('server', 'error')).toHaveLength(1);
    expect(said('command', 'nonsense')).toHaveLength(1);
  });
});

import { spawnSync } from 'node:child_process';
import { hostname } from 'node:os';
import { expect, it } from 'vitest';
import { hasEnded, workerName } from '@/lib/work/analysis/worker-name';

const named = (host: string, pid: number) => JSON.stringify([host, pid, 'walk']);

it('tells a process of this machine that has ended from one that lives, and from others', () => {
  const { pid } = spawnSync(process.execPath, ['--version']);
  expect(hasEnded(named(hostname(), pid))).toBe(true);
  expect(hasEnded(named(hostname(), process.ppid))).toBe(false);
  expect(hasEnded(named(`not-${hostname()}`, pid))).toBe(false);
  expect(hasEnded(workerName())).toBe(false);
  for (const other of ['a', '{}', '[1,2]', JSON.stringify([hostname(), 'x'])])
    expect(hasEnded(other)).toBe(false);
});

import { spawnSync } from 'node:child_process';

// `npm test`: everything, in an order in which the cheapest failure comes first. Nothing needs to be installed by hand.
const STEPS: [name: string, command: string, args: string[]][] = [
  ['format and lint', 'biome', ['check', '.']],
  ['types', 'tsc', ['--noEmit']],
  [
    'who may import whom',
    'depcruise',
    ['--config', '.dependency-cruiser.cjs', 'app', 'lib', 'prisma', 'seed', 'proxy.ts'],
  ],
  ['dead code', 'knip', []],
  ['unit, published-check and integration tests', 'vitest', ['run']],
  ['build', 'next', ['build']],
  ['browser tests', 'playwright', ['test', '--config', 'tests/pages/playwright.config.ts']],
];

for (const [name, command, args] of STEPS) {
  const started = Date.now();
  process.stderr.write(`\n== ${name}\n`);
  const { status } = spawnSync('npx', ['--no-install', command, ...args], {
    stdio: 'inherit',
    env: { ...process.env, NEXT_TELEMETRY_DISABLED: '1' },
  });
  process.stderr.write(`== ${name}: ${((Date.now() - started) / 1000).toFixed(0)} s\n`);
  if (status !== 0) {
    process.stderr.write(`== failed at: ${name}\n`);
    process.exit(1);
  }
}

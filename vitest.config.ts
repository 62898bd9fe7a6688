import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { ONLY_ON_SQLITE } from './tests/support/only-on-sqlite';

const root = fileURLToPath(new URL('.', import.meta.url));

export default defineConfig({
  resolve: { alias: { '@': root.replace(/\/$/, '') } },
  test: {
    pool: 'forks',
    // The default leaves one core idle, which on a machine of two is half of it.
    maxWorkers: '100%',
    testTimeout: 120_000,
    hookTimeout: 120_000,
    projects: [
      { extends: true, test: { name: 'sqlite', include: ['tests/**/*.test.ts'] } },
      {
        extends: true,
        test: {
          name: 'postgres',
          // What opens a database, once more on a server that is started for it.
          include: ['tests/{store,work,api,auth,cli,security}/**/*.test.ts'],
          exclude: Object.keys(ONLY_ON_SQLITE),
          env: { CLEANBY_TEST_DATABASE: 'postgres' },
          globalSetup: ['tests/support/postgres-server.ts'],
        },
      },
    ],
  },
});

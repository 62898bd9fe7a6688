import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('.', import.meta.url));

export default defineConfig({
  resolve: { alias: { '@': root.replace(/\/$/, '') } },
  test: {
    include: ['tests/**/*.test.ts'],
    pool: 'forks',
    // The default leaves one core idle, which on a machine of two is half of it.
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});

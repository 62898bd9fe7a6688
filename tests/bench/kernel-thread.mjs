// A thread is TypeScript run as it stands; this file only makes Node able to read it (see lib/work/analysis/thread.mjs).
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

register({ tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)) });
await import('./kernel-thread.ts');

#!/usr/bin/env node
// The command is TypeScript run as it stands; this file only makes Node able to read it, from whichever folder it is called.
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

const root = fileURLToPath(new URL('../..', import.meta.url));
process.env.CLEANBY_ROOT ??= root;
process.env.TSX_TSCONFIG_PATH ??= `${root}tsconfig.json`;
register({ tsconfig: `${root}tsconfig.json` });
await import('./main.ts');

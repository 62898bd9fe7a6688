// next-env.d.ts is written by `next dev` and not committed; without it TypeScript would not know style sheets.
/// <reference types="next" />

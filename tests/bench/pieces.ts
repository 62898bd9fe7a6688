import type { BenchPiece } from './measure';

/** Every piece of `npm run bench` by its name, in the order in which they run. */
export const PIECES: Record<string, () => Promise<BenchPiece>> = {
  kernels: async () => (await import('./kernels')).kernels,
  import: async () => (await import('./import')).importing,
  taking: async () => (await import('./taking')).taking,
  analysis: async () => (await import('./analysis')).analysis,
  trend: async () => (await import('./trend')).trendPiece,
  pages: async () => (await import('./pages')).pages,
  'client-code': async () => (await import('./client-code')).clientCodePiece,
  'unit-page': async () => (await import('./unit-page')).unitPage,
  scale: async () => (await import('./scale')).scale,
  soak: async () => (await import('./soak')).soak,
};

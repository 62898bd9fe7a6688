import { clientCode, frameworkCode, MOST_CLIENT_CODE } from '../support/client-scripts';
import type { BenchPiece } from './measure';

const KILOBYTE = 1000;

/** Sizes, not times: they are the same on every machine. */
export const clientCodePiece: BenchPiece = {
  name: 'client-code',
  about: 'scripts that a first visit of each page loads, compressed (of the build that is there)',
  run: async () => {
    const framework = frameworkCode();
    return clientCode().map(({ page, bytes }) => ({
      what: `scripts of ${page}`,
      ours: bytes / KILOBYTE,
      peer: framework / KILOBYTE,
      peerName: 'the framework alone',
      unit: 'kB',
      // What is asked is a size.
      ratio: null,
      limit: { most: MOST_CLIENT_CODE / KILOBYTE },
      memory: null,
    }));
  },
};

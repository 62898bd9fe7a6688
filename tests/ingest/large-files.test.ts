import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';

/** What reading any file may take of memory, all of its process [MiB]. */
const PROMISED_MIB = 512;
/** Size of the files that take seconds per hundred mebibytes; LARGE_FILE_MIB=1024 has them all as large as promised. */
const MEBIBYTES = Number(process.env.LARGE_FILE_MIB ?? 96);

type Taken = {
  readings: number;
  setAside: number;
  read: number;
  sum: number;
  seconds: number;
  peakMiB: number;
};

async function read(kind: string, mebibytes: number): Promise<Taken> {
  const script = join(import.meta.dirname, 'large-file-child.ts');
  const words = ['--import', 'tsx', script, kind, String(mebibytes)];
  const { stdout } = await promisify(execFile)(process.execPath, words, { encoding: 'utf8' });
  return JSON.parse(stdout) as Taken;
}

describe('a large file is read in a process that never takes 512 MiB', () => {
  const timeout = 1_200_000;

  it('as one line of 1 GiB, which is set aside', { timeout }, async () => {
    const taken = await read('one line', 1024);
    expect(taken).toMatchObject({ read: 3, readings: 2, setAside: 1, sum: 198 });
    expect(taken.peakMiB).toBeLessThan(PROMISED_MIB);
  });

  it.each(['csv', 'gzip', 'json lines', 'rows set aside'])(
    `as ${MEBIBYTES} MiB of %s`,
    { timeout },
    async (kind) => {
      const [once, taken] = [await read(kind, 1), await read(kind, MEBIBYTES)];
      // Every piece is the same, and beside them stands a row or none.
      const beside = kind === 'json lines' ? 0 : 1;
      expect(taken.read - beside).toBe((once.read - beside) * MEBIBYTES);
      expect(taken.readings + taken.setAside).toBe(taken.read);
      const values = (of: Taken) => of.sum - 99 * beside;
      expect(values(taken)).toBeCloseTo(values(once) * MEBIBYTES, 3);
      expect(taken.peakMiB).toBeLessThan(PROMISED_MIB);
    },
  );
});

import { execFileSync } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, it, vi } from 'vitest';
import type { Programme } from '../../lib/core/plan/solve-programme';
import { makeRandom } from '../../lib/core/stats/random';
import { openSolver } from '../../lib/work/solver/open-solver';

const ONCE = { timeLimit: 10, gap: 0, start: null };

/** Two products and two machines: 30x + 50y at most, x + 2y ≤ 41, 2x + y ≤ 50. */
function workshop(isInteger: boolean): Programme {
  const column = (cost: number, first: number, second: number) => ({
    cost,
    upper: Number.POSITIVE_INFINITY,
    isInteger,
    entries: [
      { row: 0, value: first },
      { row: 1, value: second },
    ],
  });
  return {
    columns: [column(-30, 1, 2), column(-50, 2, 1)],
    rows: [
      { lower: Number.NEGATIVE_INFINITY, upper: 41 },
      { lower: Number.NEGATIVE_INFINITY, upper: 50 },
    ],
  };
}

/** Market split: equality knapsacks that branch and bound cannot finish (Cornuéjols & Dawande 1999). */
function marketSplit(rows: number): Programme {
  const random = makeRandom(3);
  const columns = Array.from({ length: 10 * (rows - 1) }, () => ({
    cost: 0,
    upper: 1,
    isInteger: true,
    entries: Array.from({ length: rows }, (_, row) => ({ row, value: Math.floor(100 * random.uniform()) })),
  }));
  const halves = Array.from({ length: rows }, (_, row) =>
    Math.floor(columns.reduce((sum, { entries }) => sum + entries[row]!.value, 0) / 2),
  );
  const slacks = halves.flatMap((_, row) =>
    [1, -1].map((value) => ({
      cost: 1,
      upper: Number.POSITIVE_INFINITY,
      isInteger: false,
      entries: [{ row, value }],
    })),
  );
  return { columns: [...columns, ...slacks], rows: halves.map((half) => ({ lower: half, upper: half })) };
}

/** Solver processes of this process, from the list of all processes (POSIX `ps`). */
function solverProcesses(): number[] {
  return execFileSync('ps', ['-A', '-o', 'pid=,ppid=,args='], { encoding: 'utf8' })
    .split('\n')
    .map((line) => line.trim().split(/\s+/))
    .filter(
      ([, parent, ...words]) => Number(parent) === process.pid && words.join(' ').includes('solver-process'),
    )
    .map(([pid]) => Number(pid));
}

const gone = () => vi.waitFor(() => expect(solverProcesses()).toEqual([]), { timeout: 5000, interval: 50 });

describe('the solver beside the server', () => {
  it('solves linear and integer programmes, with duals of the first (by hand)', async () => {
    const solver = openSolver();
    // Both machines full: x = 59/3, y = 32/3; duals from 30 = a + 2b, 50 = 2a + b.
    const relaxed = await solver.solve(workshop(false), ONCE);
    expect(relaxed.status).toBe('optimal');
    expect(relaxed.values![0]).toBeCloseTo(59 / 3, 9);
    expect(relaxed.values![1]).toBeCloseTo(32 / 3, 9);
    expect(relaxed.duals![0]).toBeCloseTo(-70 / 3, 9);
    expect(relaxed.duals![1]).toBeCloseTo(-10 / 3, 9);
    const whole = await solver.solve(workshop(true), ONCE);
    expect(whole.status).toBe('optimal');
    expect([...whole.values!].map(Math.round)).toEqual([19, 11]);
    expect(whole.bound).toBeCloseTo(-1120, 6);
    solver.close();
  });

  it('says that a programme has no solution', async () => {
    const solver = openSolver();
    const none = workshop(false);
    none.rows[0] = { lower: 1000, upper: 2000 };
    expect((await solver.solve(none, ONCE)).status).toBe('infeasible');
    solver.close();
  });

  it('keeps its time limit to about a second and says what it proved', async () => {
    const solver = openSolver();
    await solver.solve(workshop(true), ONCE);
    const begun = performance.now();
    const cut = await solver.solve(marketSplit(6), { timeLimit: 1, gap: 0, start: null });
    expect((performance.now() - begun) / 1000).toBeLessThan(2.5);
    expect(['within-gap', 'time-limit']).toContain(cut.status);
    // The next programme is solved as if nothing had happened.
    expect((await solver.solve(workshop(true), ONCE)).status).toBe('optimal');
    solver.close();
  });

  it('says so when its process is killed from outside, and solves the next programme in a new one', async () => {
    const solver = openSolver();
    expect((await solver.solve(workshop(true), ONCE)).status).toBe('optimal');
    const [pid] = solverProcesses();
    const running = solver.solve(marketSplit(6), { timeLimit: 60, gap: 0, start: null });
    const outcome = expect(running).rejects.toMatchObject({
      name: 'AppError',
      code: 'solver-unusable',
      message: expect.stringContaining('SIGKILL'),
    });
    await wait(100);
    process.kill(pid!, 'SIGKILL');
    await outcome;
    expect((await solver.solve(workshop(true), ONCE)).status).toBe('optimal');
    expect(solverProcesses()).not.toContain(pid);
    // Killed while it waits for work, it is not missed.
    process.kill(solverProcesses()[0]!, 'SIGKILL');
    await gone();
    await wait(200);
    expect((await solver.solve(workshop(true), ONCE)).status).toBe('optimal');
    solver.close();
    await gone();
  });

  it('leaves no process behind when it is closed or its signal is given, even in the middle of a programme', async () => {
    const controller = new AbortController();
    const closed = openSolver();
    const aborted = openSolver(controller.signal);
    const runs = [closed, aborted].map((solver) =>
      solver.solve(marketSplit(6), { timeLimit: 60, gap: 0, start: null }),
    );
    const outcomes = Promise.allSettled(runs);
    await wait(500);
    expect(solverProcesses()).toHaveLength(2);
    closed.close();
    controller.abort();
    await gone();
    expect((await outcomes).map(({ status }) => status)).toEqual(['rejected', 'rejected']);
  });

  it('stops at once when it is closed or its signal is given', async () => {
    const closed = openSolver();
    const running = closed.solve(marketSplit(6), { timeLimit: 60, gap: 0, start: null });
    closed.close();
    await expect(running).rejects.toThrow('closed');
    await expect(closed.solve(workshop(true), ONCE)).rejects.toThrow('closed');
    const controller = new AbortController();
    const aborted = openSolver(controller.signal).solve(marketSplit(6), {
      timeLimit: 60,
      gap: 0,
      start: null,
    });
    controller.abort();
    await expect(aborted).rejects.toThrow('closed');
  });
});

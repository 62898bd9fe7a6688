import { setImmediate } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { makeProblemInTurns } from '../../lib/core/plan/make-problem';
import { solvePlan } from '../../lib/core/plan/solve-plan';
import { pauseOf } from '../../lib/work/pause-of';
import { openSolver } from '../../lib/work/solver/open-solver';
import { fleetInput } from '../support/plan-cases';

/** A short crew: the search needs all the time it gets. */
const LARGE = fleetInput({ units: 200, weeks: 52, crewHours: 320, seed: 5 });
const elapsed = () => performance.now() / 1000;

/** Longest stretch of this process's own processor time between two turns of its event loop [ms], until stopped. */
function watchTurns() {
  const processorTime = () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
  let longest = 0;
  let isWatching = true;
  const watch = async () => {
    while (isWatching) {
      const begun = processorTime();
      await setImmediate();
      longest = Math.max(longest, processorTime() - begun);
    }
  };
  watch();
  return () => {
    isWatching = false;
    return longest;
  };
}

describe('planning two hundred units over a year', { timeout: 60_000 }, () => {
  it('keeps its time limit to about a second, and lets other requests have their turn', async () => {
    const TIME_LIMIT = 6;
    const solver = openSolver();
    const stop = watchTurns();
    const pause = pauseOf();
    const begun = elapsed();
    const problem = await makeProblemInTurns(LARGE, pause);
    const timeLimit = TIME_LIMIT - (elapsed() - begun);
    const plan = await solvePlan(problem, solver.solve, { timeLimit, gap: 0, elapsed, pause });
    const took = elapsed() - begun;
    solver.close();
    expect(stop()).toBeLessThan(200);
    expect(took).toBeLessThan(TIME_LIMIT + 1.5);
    expect(plan.isTimeUp).toBe(true);
    expect(plan.schedule.flat().length).toBeGreaterThan(0);
  });

  it('stops soon after it is called off, between two calls of the solver too', async () => {
    const controller = new AbortController();
    const pause = pauseOf(controller.signal);
    const problem = await makeProblemInTurns(LARGE, pause);
    let programmes = 0;
    const solve = async () => {
      programmes += 1;
      throw new Error('the solver is not reached');
    };
    let calledOff = 0;
    setTimeout(() => {
      calledOff = elapsed();
      controller.abort();
    }, 500);
    await expect(solvePlan(problem, solve, { timeLimit: 100, gap: 0, elapsed, pause })).rejects.toThrow(
      'abort',
    );
    expect(calledOff).toBeGreaterThan(0);
    expect(elapsed() - calledOff).toBeLessThan(1);
    expect(programmes).toBe(0);
  });
});

'use client';

import { useCallback, useEffect, useRef, useState } from 'react';
import { type Problem, postJson } from '@/app/ui/api/problem';
import type { PlanRequest, PlanResult } from '@/lib/contract/plan';

/** Often enough for a person to see that it runs. */
const TICK_MS = 100;

export type Solver = {
  /** Seconds since it began; null while nothing runs. */
  elapsed: number | null;
  /** Why the last one came to nothing. */
  problem: Problem | null;
  /** The plan; null where it was refused or cancelled. */
  solve: (request: PlanRequest) => Promise<PlanResult | null>;
  cancel: () => void;
};

/** Has the server make a plan; one at a time, and it can be cancelled. */
export function useSolver(): Solver {
  const running = useRef<AbortController | null>(null);
  const [startedAt, setStartedAt] = useState<number | null>(null);
  const [elapsed, setElapsed] = useState<number | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);

  useEffect(() => {
    if (startedAt === null) return;
    const ticking = setInterval(() => setElapsed((performance.now() - startedAt) / 1000), TICK_MS);
    return () => clearInterval(ticking);
  }, [startedAt]);

  const stop = useCallback((controller: AbortController) => {
    if (running.current !== controller) return;
    running.current = null;
    setStartedAt(null);
    setElapsed(null);
  }, []);

  const cancel = useCallback(() => {
    running.current?.abort();
    if (running.current !== null) stop(running.current);
  }, [stop]);

  // Leaving the page stops the solver as well.
  useEffect(() => () => running.current?.abort(), []);

  const solve = useCallback(
    async (request: PlanRequest) => {
      running.current?.abort();
      const controller = new AbortController();
      running.current = controller;
      setProblem(null);
      setElapsed(0);
      setStartedAt(performance.now());
      try {
        const answer = await postJson<PlanResult>('/api/v1/plan', request, controller.signal);
        if (running.current !== controller) return null;
        setProblem(answer.problem);
        return answer.document;
      } catch (error) {
        if (controller.signal.aborted) return null;
        throw error;
      } finally {
        stop(controller);
      }
    },
    [stop],
  );

  // A tick may come after the end: only what runs has a time.
  return { elapsed: startedAt === null ? null : elapsed, problem, solve, cancel };
}

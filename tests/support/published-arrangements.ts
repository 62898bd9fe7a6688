import { readFileSync } from 'node:fs';
import type { Arrangement, Side } from '@/lib/core/exchange/exchanger';

/** Sources are named in the file case by case. */
export const reference = JSON.parse(
  readFileSync(new URL('../published/data/exchanger-arrangements.json', import.meta.url), 'utf8'),
) as {
  NTU: number[];
  Cr: number[];
  cases: {
    id: string;
    effectiveness: number[][];
    not_monotonic?: { largest_effectiveness: number; at_NTU: number; effectiveness_at_NTU_10000: number };
    approximation_error?: { largest_absolute: number; at_NTU: number; at_Cr: number };
  }[];
  lmtd: { Thi: number; Tho: number; Tci: number; Tco: number; flow: 'counter' | 'co'; LMTD: number | null }[];
  F_shell: { R: number[]; P: number[]; F: Record<string, (number | null)[][]> };
  F_shell_limits: { shells: number; R: number; P_limit: number }[];
  F_crossflow_neither_mixed: { R: number; P: number; F: number }[];
  inverse: { arrangement: string; Cr: number; effectiveness: number; NTU: number | null }[];
};

/** The tolerance of the file: 1e-8, its values being rounded to ten digits. */
export const TOLERANCE = 1e-8;

export const shell = (
  shellPasses: number,
  tubePasses = 2 * shellPasses,
  tubeSide: Side = 'cold',
): Arrangement => ({
  kind: 'shell-and-tube',
  shellPasses,
  tubePasses,
  tubeSide,
});
export const crossflow = (mixed: 'none' | 'hot' | 'cold' | 'both'): Arrangement => ({
  kind: 'crossflow',
  mixed,
});
export const plate = (hotPasses: number, coldPasses: number, flow: 'counter' | 'parallel'): Arrangement => ({
  kind: 'plate',
  hotPasses,
  coldPasses,
  flow,
});

/** The hot stream is the smaller throughout; the mirror image follows below. */
export const CASES: Record<string, Arrangement> = {
  'counter-current': { kind: 'counter-current' },
  'co-current': { kind: 'co-current' },
  'shell-1-2': shell(1),
  'shell-2-4': shell(2),
  'shell-3-6': shell(3),
  'shell-4-8': shell(4),
  'shell-1-4-exact-cmin-on-shell': shell(1, 4, 'cold'),
  'shell-1-4-exact-cmin-on-tubes': shell(1, 4, 'hot'),
  'crossflow-neither-mixed-exact': crossflow('none'),
  'crossflow-cmax-mixed': crossflow('cold'),
  'crossflow-cmin-mixed': crossflow('hot'),
  'crossflow-both-mixed': crossflow('both'),
  'plate-1-1-counter': plate(1, 1, 'counter'),
  'plate-1-1-parallel': plate(1, 1, 'parallel'),
  'plate-2-1-cmin-on-1-pass-side': plate(1, 2, 'counter'),
  'plate-2-1-cmin-on-2-pass-side': plate(2, 1, 'counter'),
  'plate-2-2-overall-counter-passes-counter': plate(2, 2, 'counter'),
  'plate-2-2-overall-parallel-passes-counter': plate(2, 2, 'parallel'),
  'plate-3-1-counter-cmin-on-1-pass-side': plate(1, 3, 'counter'),
  'plate-3-1-counter-cmin-on-3-pass-side': plate(3, 1, 'counter'),
  'plate-3-1-parallel-cmin-on-1-pass-side': plate(1, 3, 'parallel'),
  'plate-3-1-parallel-cmin-on-3-pass-side': plate(3, 1, 'parallel'),
};

/** The same unit with its two streams exchanged. */
export function mirrored(arrangement: Arrangement): Arrangement {
  if (arrangement.kind === 'shell-and-tube') {
    return { ...arrangement, tubeSide: arrangement.tubeSide === 'hot' ? 'cold' : 'hot' };
  }
  if (arrangement.kind === 'plate') {
    return { ...arrangement, hotPasses: arrangement.coldPasses, coldPasses: arrangement.hotPasses };
  }
  if (arrangement.kind !== 'crossflow') return arrangement;
  const mirror = { none: 'none', hot: 'cold', cold: 'hot', both: 'both' } as const;
  return { ...arrangement, mixed: mirror[arrangement.mixed] };
}

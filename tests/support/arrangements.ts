import type { Arrangement, Side } from '@/lib/core/exchange/exchanger';

const shell = (shellPasses: number, tubePasses: number, tubeSide: Side = 'cold'): Arrangement => ({
  kind: 'shell-and-tube',
  shellPasses,
  tubePasses,
  tubeSide,
});
const plate = (hotPasses: number, coldPasses: number, flow: 'counter' | 'parallel'): Arrangement => ({
  kind: 'plate',
  hotPasses,
  coldPasses,
  flow,
});

/** Every arrangement the program knows, one of each formula and side, to loop over in tests. */
export const ARRANGEMENTS: { name: string; arrangement: Arrangement }[] = [
  { name: 'counter-current', arrangement: { kind: 'counter-current' } },
  { name: 'co-current', arrangement: { kind: 'co-current' } },
  { name: 'shell 1-1', arrangement: shell(1, 1) },
  { name: 'shell 1-2', arrangement: shell(1, 2) },
  { name: 'shell 2-4', arrangement: shell(2, 4) },
  { name: 'shell 1-4, hot in the tubes', arrangement: shell(1, 4, 'hot') },
  { name: 'shell 1-4, cold in the tubes', arrangement: shell(1, 4) },
  { name: 'shell 1-6, hot in the tubes', arrangement: shell(1, 6, 'hot') },
  { name: 'shell 1-24, cold in the tubes', arrangement: shell(1, 24) },
  { name: 'shell 3-12, cold in the tubes', arrangement: shell(3, 12) },
  { name: 'cross-flow, neither mixed', arrangement: { kind: 'crossflow', mixed: 'none' } },
  { name: 'cross-flow, hot mixed', arrangement: { kind: 'crossflow', mixed: 'hot' } },
  { name: 'cross-flow, cold mixed', arrangement: { kind: 'crossflow', mixed: 'cold' } },
  { name: 'cross-flow, both mixed', arrangement: { kind: 'crossflow', mixed: 'both' } },
  { name: 'plate 1-1 counter', arrangement: plate(1, 1, 'counter') },
  { name: 'plate 1-1 parallel', arrangement: plate(1, 1, 'parallel') },
  { name: 'plate 2-1', arrangement: plate(2, 1, 'counter') },
  { name: 'plate 1-2', arrangement: plate(1, 2, 'parallel') },
  { name: 'plate 2-2 counter', arrangement: plate(2, 2, 'counter') },
  { name: 'plate 2-2 parallel', arrangement: plate(2, 2, 'parallel') },
  { name: 'plate 3-1 counter', arrangement: plate(3, 1, 'counter') },
  { name: 'plate 3-1 parallel', arrangement: plate(3, 1, 'parallel') },
  { name: 'plate 1-3 counter', arrangement: plate(1, 3, 'counter') },
  { name: 'plate 1-3 parallel', arrangement: plate(1, 3, 'parallel') },
];

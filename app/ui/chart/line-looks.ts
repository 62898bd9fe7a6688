import type { LineStyle } from '@/lib/report/format/chart-view';

/** Lines are told apart by tone and dash, never by hue: grey is normal. */
export const LINE_LOOKS: Record<
  LineStyle,
  { stroke: string; strokeWidth: number; strokeDasharray?: string }
> = {
  main: { stroke: 'var(--trace)', strokeWidth: 1.5 },
  'main-dashed': { stroke: 'var(--trace)', strokeWidth: 1.3, strokeDasharray: '5 2.5' },
  second: { stroke: 'var(--trace-soft)', strokeWidth: 1.5 },
  'second-dashed': { stroke: 'var(--trace-soft)', strokeWidth: 1.5, strokeDasharray: '5 2.5' },
};

import { expect, it } from 'vitest';
import { orthogonalised, takeOut } from '@/lib/core/fit/orthogonal';

const t = Float64Array.from({ length: 30 }, (_, i) => i + 1);
const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

it('orthogonal columns have unit length, nothing in common, and leave nothing of what they came from', () => {
  const given = [t.map(() => 1), t.slice(), t.map(Math.sqrt)];
  const units = orthogonalised(given.map((column) => column.slice()));
  expect(units).toHaveLength(3);
  units.forEach((a, i) => {
    units.forEach((b, j) => {
      expect(dot(a, b)).toBeCloseTo(i === j ? 1 : 0, 12);
    });
  });
  for (const column of given) expect(Math.max(...takeOut(units, column).map(Math.abs))).toBeLessThan(1e-13);
});

it('a column that depends on others is left out', () => {
  const columns = [t.map(() => 1), t.slice(), t.map((age) => 3 * age - 7), t.map(Math.sqrt)];
  expect(orthogonalised(columns)).toHaveLength(3);
  expect(orthogonalised([new Float64Array(5)])).toHaveLength(0);
});

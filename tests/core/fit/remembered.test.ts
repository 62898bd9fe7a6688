import { expect, it } from 'vitest';
import { remembered } from '@/lib/core/fit/remembered';

it('a function that remembers is asked once for each place and answers as before', () => {
  const asked: number[] = [];
  const square = remembered((x) => {
    asked.push(x);
    return x * x;
  });
  expect([3, 2, 3, 0, 0, 2].map(square)).toEqual([9, 4, 9, 0, 0, 4]);
  expect(asked).toEqual([3, 2, 0]);
});

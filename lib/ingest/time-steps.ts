import { type DateOrder, TimeScanner } from './time-scanner';

const ORDERS: readonly DateOrder[] = ['day-first', 'month-first'];
/** Fewer times at one distance may be so by chance. */
const LEAST_TIMES = 4;

/**
 * The one order of day and month in which times follow each other at one distance; null where both do or neither does.
 * A time that comes again, as in rows of several units, counts once.
 */
export function stepsShow(texts: readonly string[]): DateOrder | null {
  const scanner = new TimeScanner();
  const even = ORDERS.filter((order) => {
    const walls = new Set<number>();
    for (const text of texts) {
      scanner.scan(text);
      walls.add(scanner.wall(order));
    }
    return isEven([...walls]);
  });
  return even.length === 1 ? even[0]! : null;
}

function isEven(walls: readonly number[]): boolean {
  const step = walls[1]! - walls[0]!;
  return walls.length >= LEAST_TIMES && walls.every((wall, i) => i === 0 || wall - walls[i - 1]! === step);
}

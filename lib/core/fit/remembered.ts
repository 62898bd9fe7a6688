/**
 * A function that works out each of its values once: searches and root finders ask for the same place again.
 *
 * @param of function of one number [any unit]
 * @returns the same function; what it returned is kept as long as it is
 * @range any function that always gives the same answer
 * @source none: convenience
 * @check tests/core/fit/remembered.test.ts
 */
export function remembered<Value>(of: (x: number) => Value): (x: number) => Value {
  const known = new Map<number, Value>();
  return (x) => {
    const before = known.get(x);
    if (before !== undefined) return before;
    const value = of(x);
    known.set(x, value);
    return value;
  };
}

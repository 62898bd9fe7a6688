import type { Unit } from '../fleet-file';
import { type Json, type JsonObject, putAt, valueAt } from './paths';
import { UNIT_LEAVES } from './unit-leaves';

const LIMIT_PATHS = UNIT_LEAVES.map(({ path }) => path).filter((path) => path.startsWith('limits.'));
const SIDES = ['hot', 'cold'] as const;

/**
 * A unit as a sheet holds it, every value at the path of its column: limits by kind and stream, each a list; the two
 * viscosities of an oil by number. The unit itself is left as it is.
 */
export function formOf(unit: Unit | JsonObject): JsonObject {
  const form = structuredClone(unit) as JsonObject;
  const limits = (form.limits ?? []) as JsonObject[];
  delete form.limits;
  for (const limit of limits) {
    const path = limitPath(limit);
    if (path === null) continue;
    const value = limit[lastKey(path)]!;
    putAt(form, path, [...((valueAt(form, path) as Json[] | undefined) ?? []), value]);
  }
  for (const side of SIDES) {
    const stated = valueAt(form, `${side}.viscosities`);
    if (Array.isArray(stated))
      putAt(form, `${side}.viscosities`, Object.fromEntries(stated.entries()) as JsonObject);
  }
  return form;
}

/** The document of a unit that a form states. `places[i]` is the column path of limit i. */
export function unitOfForm(form: JsonObject): { document: JsonObject; limitPaths: string[] } {
  const document = structuredClone(form);
  delete document.limits;
  const limitPaths: string[] = [];
  const limits = LIMIT_PATHS.flatMap((path) =>
    ((valueAt(form, path) as Json[] | undefined) ?? []).map((value) => {
      limitPaths.push(path);
      return limitOf(path, value);
    }),
  );
  if (limits.length > 0) document.limits = limits;
  for (const side of SIDES) {
    const stated = valueAt(document, `${side}.viscosities`) as JsonObject | undefined;
    // A tuple with a hole is told by the schema, at its place.
    if (stated !== undefined) putAt(document, `${side}.viscosities`, [stated[0] ?? {}, stated[1] ?? {}]);
  }
  return { document, limitPaths };
}

/** `limits.outlet-temperature.hot.above` of a limit; null for one whose kind has no column. */
function limitPath(limit: JsonObject): string | null {
  const start = ['limits', limit.kind, limit.stream].filter((key) => key !== undefined).join('.');
  return (
    LIMIT_PATHS.find((path) => path.startsWith(`${start}.`) && limit[lastKey(path)] !== undefined) ?? null
  );
}

function limitOf(path: string, value: Json): JsonObject {
  const [, kind, ...rest] = path.split('.') as [string, string, ...string[]];
  const stream: JsonObject = rest.length > 1 ? { stream: rest[0]! } : {};
  return { kind, ...stream, [lastKey(path)]: value };
}

function lastKey(path: string): string {
  return path.slice(path.lastIndexOf('.') + 1);
}

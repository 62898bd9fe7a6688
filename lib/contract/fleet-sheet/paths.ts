/** A value of a JSON document, or of a unit as a sheet holds it. */
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type JsonObject = { [key: string]: Json };

function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What stands at `design.hotIn`; undefined where nothing does. */
export function valueAt(document: JsonObject, path: string): Json | undefined {
  let at: Json | undefined = document;
  for (const key of path.split('.')) {
    if (!isObject(at) || !Object.hasOwn(at, key)) return undefined;
    at = at[key];
  }
  return at;
}

/** Puts a value at a path; undefined takes away what stands there, and the objects that this leaves empty. */
export function putAt(document: JsonObject, path: string, value: Json | undefined): void {
  const [key, ...rest] = path.split('.') as [string, ...string[]];
  if (rest.length === 0) {
    if (value === undefined) delete document[key];
    else document[key] = value;
    return;
  }
  const inner = document[key];
  if (value === undefined && !isObject(inner)) return;
  const object = isObject(inner) ? inner : {};
  putAt(object, rest.join('.'), value);
  if (value === undefined && Object.keys(object).length === 0) delete document[key];
  else document[key] = object;
}

/** Whether two values say the same, whatever the order of their keys. */
export function isSameJson(a: Json | undefined, b: Json | undefined): boolean {
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((value, i) => isSameJson(value, b[i]));
  }
  if (!isObject(a) || !isObject(b)) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => isSameJson(a[key], b[key]));
}

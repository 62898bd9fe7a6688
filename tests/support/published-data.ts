import { readFileSync } from 'node:fs';

/** A file of `tests/published/data`, in the shape that its reader states. */
export function readPublished<Shape>(name: string): Shape {
  const file = new URL(`../published/data/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(file, 'utf8')) as Shape;
}

import { z } from 'zod';
import { nearestName } from './nearest-name';

/** Fields of one object that are looked up: a body of a million fields must not cost a million searches. */
const MOST_SUGGESTIONS = 20;

/**
 * An object whose fields are all known. What comes in by file or request is described with it: a field that is misspelt would
 * otherwise be dropped, and a limit or a film share with it, without a word. `faultsOf` tells each such field at its own place.
 */
export function onlyKnown<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys' ? unknownFields(issue.keys, namesOf(issue.inst)) : undefined,
  });
}

/** One line for each field, in their order. */
function unknownFields(keys: readonly string[], names: readonly string[]): string {
  return keys
    .map((key, index) => unknownField(index < MOST_SUGGESTIONS ? nearestName(key, names) : null))
    .join('\n');
}

function unknownField(nearest: string | null): string {
  return nearest === null
    ? 'is not known here: check how it is spelt'
    : `is not known here; did you mean "${nearest}"?`;
}

/** The names that the object in question knows, by now: `extend` may have added to the shape it began with. */
function namesOf(schema: unknown): string[] {
  return schema instanceof z.ZodObject ? Object.keys(schema.shape) : [];
}

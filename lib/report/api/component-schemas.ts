import { z } from 'zod';

export type JsonSchema = { [key: string]: unknown };

const COMPONENTS = '#/components/schemas/';
/** Where zod puts what several schemas share without any of them being asked for. */
const SHARED = '__shared';

/**
 * Schemas as JSON Schema 2020-12, each under its `id`, with everything they refer to. Of requests the side that is sent (`input`),
 * of answers the side that comes. `isClosed`: an answer with a field nobody documented does not fit; what is published leaves room
 * for new ones.
 */
export function componentSchemas(
  roots: Iterable<z.ZodType>,
  io: 'input' | 'output',
  isClosed = false,
): Map<string, JsonSchema> {
  const registry = z.registry<{ id: string }>();
  for (const root of roots) registry.add(root, { id: idOf(root) });
  const { schemas } = z.toJSONSchema(registry, {
    io,
    uri: (id) => (id === SHARED ? SHARED : COMPONENTS + id),
    override: ({ zodSchema, jsonSchema }) => {
      const { def } = zodSchema._zod;
      const isOpen = def.type === 'object' && def.catchall === undefined;
      if (isOpen && io === 'output' && !isClosed) delete jsonSchema.additionalProperties;
      // The format says it in a word.
      if (jsonSchema.format?.startsWith('date')) delete jsonSchema.pattern;
    },
  });
  const { [SHARED]: shared, ...named } = schemas as Record<string, JsonSchema>;
  const all = { ...named, ...((shared?.$defs ?? {}) as Record<string, JsonSchema>) };
  return new Map(Object.entries(all).map(([id, schema]) => [id, plain(schema) as JsonSchema]));
}

/** The name a schema has everywhere. @throws RangeError for one that has none */
export function idOf(schema: z.ZodType): string {
  const id = z.globalRegistry.get(schema)?.id;
  if (id === undefined) throw new RangeError('a document of the API has no id');
  return id;
}

/** References within one document, and no marks of the tool. */
function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).flatMap(([key, inner]) => {
    if (key === '$schema' || key === '$id' || (key === 'id' && typeof inner === 'string')) return [];
    if (key === '$ref' && typeof inner === 'string') {
      return [[key, inner.replace(`${SHARED}#/$defs/`, COMPONENTS)] as const];
    }
    return [[key, plain(inner)] as const];
  });
  return Object.fromEntries(entries);
}

/** Ids that a schema refers to directly. */
export function refsOf(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(refsOf);
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === '$ref' && typeof inner === 'string' ? [inner.slice(COMPONENTS.length)] : refsOf(inner),
  );
}

export function refTo(id: string): JsonSchema {
  return { $ref: COMPONENTS + id };
}

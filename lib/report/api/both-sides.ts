import { type JsonSchema, refsOf, refTo } from './component-schemas';

/**
 * Schemas of requests and of answers under one roof: where both sides of one differ (a default that may be left out is always
 * there in an answer), the one of the request is called `…Input`.
 */
export function bothSides(
  sent: ReadonlyMap<string, JsonSchema>,
  answered: ReadonlyMap<string, JsonSchema>,
): { schemas: Record<string, JsonSchema>; sentName: (id: string) => string } {
  const differing = differingIds(sent, answered);
  const sentName = (id: string) => (differing.has(id) ? `${id}Input` : id);
  const schemas = new Map(answered);
  for (const [id, schema] of sent) {
    if (!answered.has(id) || differing.has(id))
      schemas.set(sentName(id), renamed(schema, sentName) as JsonSchema);
  }
  const byName = [...schemas].sort(([a], [b]) => a.localeCompare(b, 'en'));
  return { schemas: Object.fromEntries(byName), sentName };
}

/** Ids of both sides that differ themselves or refer to one that does. */
function differingIds(
  sent: ReadonlyMap<string, JsonSchema>,
  answered: ReadonlyMap<string, JsonSchema>,
): Set<string> {
  const inBoth = [...sent.keys()].filter((id) => answered.has(id));
  const differing = new Set(
    inBoth.filter((id) => JSON.stringify(sent.get(id)) !== JSON.stringify(answered.get(id))),
  );
  for (let before = -1; before !== differing.size; ) {
    before = differing.size;
    for (const id of inBoth) {
      if (refsOf(sent.get(id)).some((ref) => differing.has(ref))) differing.add(id);
    }
  }
  return differing;
}

function renamed(value: unknown, nameOf: (id: string) => string): unknown {
  if (Array.isArray(value)) return value.map((inner) => renamed(inner, nameOf));
  if (value === null || typeof value !== 'object') return value;
  const [ref] = '$ref' in value ? refsOf({ $ref: value.$ref }) : [];
  const entries = Object.entries(value).map(([key, inner]) => [key, renamed(inner, nameOf)]);
  return { ...Object.fromEntries(entries), ...(ref === undefined ? {} : refTo(nameOf(ref))) };
}

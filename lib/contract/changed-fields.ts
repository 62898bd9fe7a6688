/** Values of the fields that differ, by their path: `design.hotIn`, `sensors.hotFlow.uncertainty`. */
export type FieldValues = Record<string, unknown>;

/** What of a document became another one; a field that is not there on one side is missing on that side. */
export function changedFields(before: unknown, after: unknown): { before: FieldValues; after: FieldValues } {
  const [old, now] = [fieldsOf(before), fieldsOf(after)];
  const differing = [...new Set([...Object.keys(old), ...Object.keys(now)])].filter(
    (path) => JSON.stringify(old[path]) !== JSON.stringify(now[path]),
  );
  // Something empty that holds fields on the other side is told by those.
  const holds = (path: string) =>
    differing.some((other) => other.startsWith(`${path}.`) || other.startsWith(`${path}[`));
  const paths = differing.filter((path) => !holds(path));
  const pick = (values: FieldValues) =>
    Object.fromEntries(paths.filter((path) => path in values).map((path) => [path, values[path]]));
  return { before: pick(old), after: pick(now) };
}

/** Every field that holds one thing: a text, a number, a quantity with its unit, a price with what it is for. */
function fieldsOf(document: unknown, path = ''): FieldValues {
  if (isWhole(document)) return path === '' ? {} : { [path]: document };
  const within = (name: string) => (path === '' ? name : `${path}.${name}`);
  const fields = Array.isArray(document)
    ? document.map((each, index) => fieldsOf(each, `${path}[${index}]`))
    : Object.entries(document as object).map(([name, each]) => fieldsOf(each, within(name)));
  return Object.assign({}, ...fields) as FieldValues;
}

function isWhole(document: unknown): boolean {
  if (document === null || typeof document !== 'object') return true;
  return 'unit' in document || 'per' in document || Object.keys(document).length === 0;
}

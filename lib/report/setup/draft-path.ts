/** `limits[0].value` → ['limits', '0', 'value'] */
function keysOf(path: string): string[] {
  return path.split(/[.[\]]+/).filter((key) => key !== '');
}

type Node = Record<string, unknown>;

/** What stands at a path such as `design.hotIn.value` or `limits[0].kind`. */
export function valueAt(draft: object, path: string): unknown {
  return keysOf(path).reduce<unknown>((node, key) => (node as Node | undefined)?.[key], draft);
}

/** A copy with one value changed; everything beside the path is shared with the original. */
export function withValueAt<Draft extends object>(draft: Draft, path: string, value: unknown): Draft {
  const place = (node: unknown, keys: string[]): unknown => {
    const [key, ...rest] = keys;
    if (key === undefined) return value;
    const copy = Array.isArray(node) ? [...node] : { ...(node as Node) };
    (copy as Node)[key] = place((node as Node)[key], rest);
    return copy;
  };
  return place(draft, keysOf(path)) as Draft;
}

/** Id of the control at a path, for labels and for links from the list of faults. */
export function fieldId(path: string): string {
  return `field-${keysOf(path).join('-')}`;
}

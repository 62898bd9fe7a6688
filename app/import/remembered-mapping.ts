import type { ImportPreview } from '@/lib/contract/import-preview';
import type { Mapping } from '@/lib/contract/mapping';

const PREFIX = 'cleanby.mapping.';

/** The mapping this browser used for a file with the same header; null without one. */
export function recalledMapping(preview: ImportPreview): Mapping | null {
  try {
    const text = localStorage.getItem(keyOf(preview));
    return text === null ? null : (JSON.parse(text) as Mapping);
  } catch {
    return null;
  }
}

/** Keeps a mapping for the next file with this header. */
export function rememberMapping(preview: ImportPreview, mapping: Mapping): void {
  try {
    localStorage.setItem(keyOf(preview), JSON.stringify(mapping));
  } catch {
    // A browser that keeps nothing only costs the person a second mapping.
  }
}

function keyOf({ format }: ImportPreview): string {
  return PREFIX + format.columns.map(({ name }) => name).join('\u001f');
}

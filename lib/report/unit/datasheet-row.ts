import { inSi, type Quantity } from '@/lib/contract/in-si';
import type { Kind } from '@/lib/contract/ucum';
import type { DisplayKind } from '@/lib/report/format/display-unit';
import { formatFigureText } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import { UNIT_SYSTEMS } from '@/lib/report/format/unit-system';

/** One line of the datasheet: as given, and in both unit systems. `note` says what was assumed or excluded. */
export type DatasheetRow = { label: string; given: string; si: string; us: string; note: string | null };

/** A stated quantity with its unit as written, and in both systems. */
export function quantityRow(label: string, given: Quantity, kind: Kind & DisplayKind): DatasheetRow {
  return {
    label,
    given: `${given.value} ${ucumInWords(given.unit)}`,
    ...bothSystems(inSi(given, kind), kind),
    note: null,
  };
}

/** An SI value in both systems; four digits are what a datasheet gives. */
export function bothSystems(value: number, kind: DisplayKind, digits = 4): { si: string; us: string } {
  const [si, us] = UNIT_SYSTEMS.map((system) => formatFigureText(value, kind, system, { digits }));
  return { si: si!, us: us! };
}

/** A line that is no quantity: the same words in every system. */
export function wordsRow(label: string, words: string, note: string | null = null): DatasheetRow {
  return { label, given: words, si: '', us: '', note };
}

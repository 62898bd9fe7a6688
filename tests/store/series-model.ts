import { SENSORS } from '@/lib/core/exchange/exchanger';

/** A row of a file: values by place in SENSORS, null = not in it. */
export type FileRow = { unit: string; hour: number; values: (number | null)[]; basis: number };

type Standing = { values: (number | null)[]; basis: number; batch: number };
type Kept = { batch: number; key: string; previous: Standing };
type Counts = { added: number; replaced: number; unchanged: number };

const FLOWS: Record<number, number> = { [SENSORS.indexOf('hotFlow')]: 1, [SENSORS.indexOf('coldFlow')]: 2 };
const keyOf = (unit: string, hour: number) => `${unit} ${hour}`;

/** What the readings store promises, in plain objects and one row after the other. */
export class SeriesModel {
  readonly standing = new Map<string, Standing>();
  #kept: Kept[] = [];
  readonly #undone = new Set<number>();

  import(batch: number, rows: readonly FileRow[]): Counts {
    const counts = { added: 0, replaced: 0, unchanged: 0 };
    for (const row of rows) counts[this.#take(batch, row)]++;
    return counts;
  }

  #take(batch: number, row: FileRow): keyof Counts {
    const key = keyOf(row.unit, row.hour);
    const old = this.standing.get(key);
    if (old === undefined) {
      this.standing.set(key, { values: row.values.map(unsigned), basis: row.basis, batch });
      return 'added';
    }
    const now = { values: [...old.values], basis: old.basis, batch };
    let [changes, replaces] = [false, false];
    row.values.forEach((value, s) => {
      if (value === null) return;
      const bit = FLOWS[s] ?? 0;
      if (old.values[s] === unsigned(value) && (old.basis & bit) === (row.basis & bit)) return;
      changes = true;
      if (old.values[s] !== null) replaces = true;
      now.values[s] = unsigned(value);
      now.basis = (now.basis & ~bit) | (row.basis & bit);
    });
    if (!changes) return 'unchanged';
    if (old.batch !== batch) this.#kept.push({ batch, key, previous: old });
    this.standing.set(key, now);
    return replaces ? 'replaced' : 'added';
  }

  /** What undoing would do. */
  preview(batch: number): { removed: number; restored: number; kept: number } {
    const own = this.#kept.filter((kept) => kept.batch === batch).map(({ key }) => key);
    const held = [...this.standing].filter(([, { batch: by }]) => by === batch).map(([key]) => key);
    const restored = held.filter((key) => own.includes(key)).length;
    const later = this.#kept.filter((kept) => kept.previous.batch === batch && !this.#undone.has(kept.batch));
    return { removed: held.length - restored, restored, kept: later.length };
  }

  undo(batch: number): void {
    const before = new Map(
      this.#kept.filter((kept) => kept.batch === batch).map((kept) => [kept.key, kept.previous]),
    );
    for (const [key, { batch: by }] of [...this.standing]) {
      if (by !== batch) continue;
      const previous = before.get(key);
      if (previous === undefined) this.standing.delete(key);
      else this.standing.set(key, previous);
    }
    // What later batches would put back is what this one had found.
    this.#kept = this.#kept.flatMap((kept) => {
      if (kept.previous.batch !== batch) return [kept];
      const previous = before.get(kept.key);
      return previous === undefined ? [] : [{ ...kept, previous }];
    });
    this.#undone.add(batch);
  }

  /** Rows of a unit in order of time. */
  rowsOf(unit: string): { hour: number; values: (number | null)[]; basis: number }[] {
    return [...this.standing]
      .filter(([key]) => key.startsWith(`${unit} `))
      .map(([key, { values, basis }]) => ({ hour: Number(key.split(' ')[1]), values, basis }))
      .sort((a, b) => a.hour - b.hour);
  }

  /** Rows that a batch found and changed, as they stood before and as it left them (null: undone). */
  replacedBy(batch: number) {
    return this.#kept
      .filter((kept) => kept.batch === batch)
      .map(({ key, previous }) => {
        const now = this.standing.get(key);
        const later = this.#kept.find(
          (kept) => kept.key === key && kept.previous.batch === batch && !this.#undone.has(kept.batch),
        );
        const left = now?.batch === batch ? now : (later?.previous ?? null);
        const [unit, hour] = key.split(' ') as [string, string];
        return { unit, hour: Number(hour), before: previous.values, after: left?.values ?? null };
      })
      .sort((a, b) => a.unit.localeCompare(b.unit) || a.hour - b.hour);
  }
}

/** A zero has no sign in what is stored. */
function unsigned(value: number | null): number | null {
  return value === 0 ? 0 : value;
}

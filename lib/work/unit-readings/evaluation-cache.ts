import { SENSORS } from '@/lib/core/exchange/exchanger';
import { EVALUATION_BIT_COLUMNS, EVALUATION_FLOAT_COLUMNS } from '@/lib/core/fouling/evaluation-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { Stretch } from './changed-stretches';
import { type EvaluatedStretch, evaluateStretch, type Judging, reachOf } from './evaluated-stretch';

/** What the evaluated readings of a unit hang on. */
export type Asked = Stretch & {
  unitId: number;
  judging: Judging;
  /** Another text for every other judging. */
  judgedBy: string;
  /** Another text after every change of the unit's readings. */
  readAt: string;
  readReadings: (from: number, to: number) => Promise<ReadingColumns>;
};

type Kept = EvaluatedStretch & Pick<Asked, 'judgedBy' | 'readAt'>;

/** Most memory that evaluated readings may hold [B]: half a dozen units with ten years of hourly readings. */
export const MOST_BYTES = 128 * 2 ** 20;

const BYTES_A_ROW =
  (2 + SENSORS.length + EVALUATION_FLOAT_COLUMNS.length) * 8 + 4 + 1 + EVALUATION_BIT_COLUMNS.length;

/**
 * Evaluated readings of the units looked at last, so that looking closer costs no evaluation. A unit's readings are read
 * again when one may have changed, and only those evaluated anew that a change can reach.
 */
export class EvaluationCache {
  /** The one asked for last stands last. */
  readonly #kept = new Map<number, Kept>();
  readonly #turns = new Map<number, Promise<unknown>>();

  constructor(private readonly mostBytes = MOST_BYTES) {}

  /** Readings and evaluation with from ≤ time < to, and what of them lies around within the reach of the screening. */
  async evaluated(asked: Asked): Promise<EvaluatedStretch> {
    // Two who ask for the same unit at once evaluate it once.
    const turn = (this.#turns.get(asked.unitId) ?? Promise.resolve()).then(() => this.#find(asked));
    const settled = turn.catch(() => {});
    this.#turns.set(asked.unitId, settled);
    try {
      return await turn;
    } finally {
      if (this.#turns.get(asked.unitId) === settled) this.#turns.delete(asked.unitId);
    }
  }

  /** Memory held [B]. */
  get bytes(): number {
    return [...this.#kept.values()].reduce((sum, kept) => sum + bytesOf(kept), 0);
  }

  async #find(asked: Asked): Promise<EvaluatedStretch> {
    const { unitId, judgedBy, readAt } = asked;
    const found = this.#kept.get(unitId);
    const known = found !== undefined && found.judgedBy === judgedBy ? found : null;
    const isCovered = known !== null && known.from <= asked.from && asked.to <= known.to;
    if (isCovered && known.readAt === readAt) return this.#keep(unitId, known);
    const stretch = known === null ? asked : union(known, asked);
    const reach = reachOf(stretch);
    const readings = await asked.readReadings(reach.from, reach.to);
    const { judging } = asked;
    const evaluated = await evaluateStretch(stretch, readings, { judging, before: known });
    return this.#keep(unitId, { ...evaluated, judgedBy, readAt });
  }

  #keep(unitId: number, kept: Kept): Kept {
    this.#kept.delete(unitId);
    if (bytesOf(kept) > this.mostBytes) return kept;
    this.#kept.set(unitId, kept);
    let bytes = this.bytes;
    for (const [id, other] of this.#kept) {
      if (bytes <= this.mostBytes) break;
      this.#kept.delete(id);
      bytes -= bytesOf(other);
    }
    return kept;
  }
}

function union(one: Stretch, other: Stretch): Stretch {
  return { from: Math.min(one.from, other.from), to: Math.max(one.to, other.to) };
}

function bytesOf({ readings }: Kept): number {
  return readings.time.length * BYTES_A_ROW;
}

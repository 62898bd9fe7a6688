import type { Widening } from '@/lib/core/pipeline/unit-trend';
import type { AnalysedUnit } from '@/lib/report/records';

/** Units whose bands are spread for the same reason, the most spread first. */
export type WideningGroup = {
  from: Widening['from'];
  /** Past projections the factor rests on: of the fleet, or the fewest of one unit. */
  count: number;
  /** Least and largest factor [-]. */
  least: number;
  most: number;
  units: { tag: string; factor: number; count: number }[];
};

const ORDER: Widening['from'][] = ['unit', 'fleet', 'none'];

/** Which record spreads the bands of which units, and by how much. */
export function wideningGroups(units: readonly Pick<AnalysedUnit, 'record' | 'trend'>[]): WideningGroup[] {
  const widened = units.flatMap(({ record, trend }) =>
    trend === null ? [] : { tag: record.tag, ...trend.widening },
  );
  return ORDER.flatMap((from) => {
    const members = widened
      .filter((unit) => unit.from === from)
      .sort((a, b) => b.factor - a.factor || a.tag.localeCompare(b.tag, 'en', { numeric: true }));
    if (members.length === 0) return [];
    return {
      from,
      count: members.reduce((fewest, { count }) => Math.min(fewest, count), members[0]!.count),
      least: members.at(-1)!.factor,
      most: members[0]!.factor,
      units: members.map(({ tag, factor, count }) => ({ tag, factor, count })),
    };
  });
}

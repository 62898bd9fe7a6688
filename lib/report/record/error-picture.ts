import { middleError } from './middle-error';
import type { PastProjection } from './past-projections';
import type { RecordAddress } from './record-address';

/** Projections whose errors are alike: `at` is a share of the axis from too early to too late. */
export type ErrorPile = { at: number; held: number; missed: number };

/** Where past projections landed, all on one scale about the day that came: left too early, right too late. */
export type ErrorPicture = {
  /** Half the width of the axis, in days or in shares of the time left, and its ticks. */
  reach: number;
  ticks: { at: number; value: number }[];
  rows: ErrorRow[];
  /** Most projections in one pile of any row. */
  highest: number;
};

export type ErrorRow = {
  piles: ErrorPile[];
  /** Median error as share of the axis; null where it lies beyond. */
  middle: number | null;
  /** Those beyond either end of the axis; those without a day are beyond the late one. */
  beyondEarly: number;
  beyondLate: number;
};

type Scale = RecordAddress['scale'];

/** An odd number, so that the day itself has a pile of its own. */
const PILES = 61;
/** Half-widths the axis can have. */
const REACHES: Record<Scale, readonly number[]> = {
  days: [5, 10, 20, 50, 100, 200, 500],
  share: [0.1, 0.2, 0.5, 1],
};
/** The axis holds at least this share of the projections that gave a day [-]; the rest is counted at its ends. */
const LEAST_SEEN = 0.95;

/** The picture of several rows of past projections. */
export function errorPicture(rows: readonly (readonly PastProjection[])[], scale: Scale): ErrorPicture {
  const errorOf = (projection: PastProjection) =>
    scale === 'days' ? projection.errorDays : projection.errorShare;
  const sizes = rows.flat().flatMap((projection) => {
    const error = errorOf(projection);
    return error === null ? [] : Math.abs(error);
  });
  const reach = reachOf(sizes, REACHES[scale]);
  const drawn = rows.map((projections) => errorRow(projections, { errorOf, reach }));
  return {
    reach,
    ticks: [-1, -0.5, 0, 0.5, 1].map((share) => ({ at: (share + 1) / 2, value: share * reach })),
    rows: drawn,
    highest: Math.max(1, ...drawn.flatMap(({ piles }) => piles.map(({ held, missed }) => held + missed))),
  };
}

function reachOf(sizes: readonly number[], reaches: readonly number[]): number {
  const seen = (reach: number) => sizes.filter((size) => size <= reach).length;
  return reaches.find((reach) => seen(reach) >= LEAST_SEEN * sizes.length) ?? reaches.at(-1)!;
}

function errorRow(
  projections: readonly PastProjection[],
  { errorOf, reach }: { errorOf: (projection: PastProjection) => number | null; reach: number },
): ErrorRow {
  const piles = new Map<number, ErrorPile>();
  const row = { beyondEarly: 0, beyondLate: 0 };
  for (const projection of projections) {
    const error = errorOf(projection);
    if (error === null || error > reach) row.beyondLate++;
    else if (error < -reach) row.beyondEarly++;
    else addTo(piles, { place: placeOf(error, reach), held: projection.held });
  }
  return {
    ...row,
    piles: [...piles.values()].sort((a, b) => a.at - b.at),
    middle: placeOfMiddle(middleError(projections.map(errorOf)), reach),
  };
}

function placeOf(error: number, reach: number): number {
  return Math.min(PILES - 1, Math.floor(((error / reach + 1) / 2) * PILES));
}

function addTo(piles: Map<number, ErrorPile>, { place, held }: { place: number; held: boolean }): void {
  const pile = piles.get(place) ?? { at: (place + 0.5) / PILES, held: 0, missed: 0 };
  pile[held ? 'held' : 'missed']++;
  piles.set(place, pile);
}

function placeOfMiddle(middle: number | null, reach: number): number | null {
  return middle !== null && Math.abs(middle) <= reach ? (middle / reach + 1) / 2 : null;
}

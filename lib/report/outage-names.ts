import type { OutageBand } from './fleet-view';

/** Where the name of an outage stands over its band: at the band's left edge, or ending at its right edge. */
export type OutageName = { at: number; lane: number; text: string; endsThere: boolean };

/** A letter takes about this share of the axis at the width of a laptop [-]. */
const SHARE_PER_LETTER = 0.008;
const GAP = 2 * SHARE_PER_LETTER;
const TODAY_HALF_WIDTH = 4 * SHARE_PER_LETTER;
/** A name may reach over the edge, into the free space above the figures. */
const OVERHANG = 0.06;
const MOST_LANES = 3;

/**
 * Names in as few lanes as keep them apart, clear of the line of today and within the axis. The same stop at several sites
 * is named once; a name without room is left to the title of its band.
 */
export function placeOutageNames(bands: OutageBand[], now: number): OutageName[] {
  const taken: { from: number; to: number; lane: number }[] = [];
  const placed: OutageName[] = [];
  for (const band of bands) {
    if (placed.some((other) => other.text === band.name && Math.abs(other.at - band.from) < GAP)) continue;
    const width = band.name.length * SHARE_PER_LETTER;
    const spots = [
      { from: band.from, to: band.from + width, at: band.from, endsThere: false },
      { from: band.to - width, to: band.to, at: band.to, endsThere: true },
    ];
    const free = lanesAndSpots(spots).find(
      ({ spot, lane }) =>
        isClear(spot, lane, now) && !taken.some((other) => other.lane === lane && overlaps(spot, other)),
    );
    if (free === undefined) continue;
    taken.push({ from: free.spot.from, to: free.spot.to, lane: free.lane });
    placed.push({ at: free.spot.at, lane: free.lane, text: band.name, endsThere: free.spot.endsThere });
  }
  return placed;
}

type Spot = { from: number; to: number };

function lanesAndSpots<Each>(spots: Each[]): { spot: Each; lane: number }[] {
  return Array.from({ length: MOST_LANES }, (_, lane) => spots.map((spot) => ({ spot, lane }))).flat();
}

/** Within the axis, not across today's line, and in the first lane not under the word "today". */
function isClear({ from, to }: Spot, lane: number, now: number): boolean {
  const margin = lane === 0 ? TODAY_HALF_WIDTH : GAP / 4;
  return from >= 0 && to <= 1 + OVERHANG && (to < now - margin || from > now + margin);
}

function overlaps(one: Spot, other: Spot): boolean {
  return one.from < other.to + GAP && other.from < one.to + GAP;
}

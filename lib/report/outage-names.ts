import type { OutageBand } from './fleet-view';

/** Where the name of an outage stands over its band: at the band's left edge, or ending at its right edge. */
export type OutageName = { at: number; lane: number; text: string; endsThere: boolean };

/** Width of a letter of a name [px], and the width of the axis on a laptop [px]. */
const LETTER = 5.8;
export const USUAL_AXIS_WIDTH = 730;
const GAP_LETTERS = 2;
const TODAY_HALF_LETTERS = 4;

/** A name may reach over the edge, into the free space above the figures. */
const OVERHANG = 0.06;
const MOST_LANES = 3;

/**
 * Names in as few lanes as keep them apart, clear of the line of today and within the axis. The same stop at several sites
 * is named once; a name without room is left to the title of its band.
 */
export function placeOutageNames(
  bands: OutageBand[],
  now: number,
  axisWidth = USUAL_AXIS_WIDTH,
): OutageName[] {
  const letter = LETTER / axisWidth;
  const gap = GAP_LETTERS * letter;
  const taken: { from: number; to: number; lane: number }[] = [];
  const placed: OutageName[] = [];
  for (const band of bands) {
    if (placed.some((other) => other.text === band.name && Math.abs(other.at - band.from) < gap)) continue;
    const width = band.name.length * letter;
    const spots = [
      { from: band.from, to: band.from + width, at: band.from, endsThere: false },
      { from: band.to - width, to: band.to, at: band.to, endsThere: true },
    ];
    const free = lanesAndSpots(spots).find(
      ({ spot, lane }) =>
        isClear(spot, lane === 0 ? TODAY_HALF_LETTERS * letter : letter / 2, now) &&
        !taken.some((other) => other.lane === lane && overlaps(spot, other, gap)),
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

/** Within the axis and not across the line of today; in the first lane not under the word "today" either. */
function isClear({ from, to }: Spot, margin: number, now: number): boolean {
  return from >= 0 && to <= 1 + OVERHANG && (to < now - margin || from > now + margin);
}

function overlaps(one: Spot, other: Spot, gap: number): boolean {
  return one.from < other.to + gap && other.from < one.to + gap;
}

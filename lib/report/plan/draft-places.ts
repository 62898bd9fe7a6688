import { addCleaning, canFollow, moveCleaning, type PlanDraft } from './draft-plan';
import { priceMove } from './draft-price';
import { optionAt, type PlanDesk, type Spot } from './plan-desk';
import { momentInWords, whereInWords } from './plan-words';

/** A place a cleaning could take, and what the plan would be with it there. */
export type Place = {
  option: number;
  /** Local days. */
  start: number;
  end: number;
  day: string;
  where: string;
  /** Cost of the whole plan against the draft as it is. */
  change: number;
  /** What it would break there; empty: it can be put there. */
  why: string[];
};

/**
 * Every place of a unit's cleaning: for one that is in the draft already where it could be moved to (its own place among them),
 * for `option: null` where another could be added.
 */
export function placesFor(
  desk: PlanDesk,
  draft: PlanDraft,
  { unit, option }: { unit: number; option: number | null },
): Place[] {
  const own = desk.problem.units[unit]!;
  const others = draft.schedule[unit]!.filter((each) => each !== option);
  return own.options.flatMap((_, at): Place[] => {
    if (others.includes(at) || !canFollow(own, [...others, at])) return [];
    const spot = { unit, option: at };
    const after = option === null ? addCleaning(draft, spot) : moveCleaning(draft, { unit, option }, at);
    return [placeAt(desk, spot, { before: draft, after })];
  });
}

function placeAt(desk: PlanDesk, spot: Spot, move: Record<'before' | 'after', PlanDraft>): Place {
  const { start, end } = optionAt(desk, spot);
  const { change, clashes } = priceMove(desk, { unit: spot.unit, ...move });
  return {
    option: spot.option,
    start,
    end,
    day: momentInWords(start),
    where: whereInWords(desk, spot),
    change,
    why: clashes.map(({ words }) => words),
  };
}

/** The place to begin with: of those that break nothing the cheapest, else the cheapest of all; null without any. */
export function bestPlace(places: readonly Place[]): Place | null {
  const free = places.filter(({ why }) => why.length === 0);
  return (free.length > 0 ? free : places).reduce<Place | null>(
    (best, place) => (best === null || place.change < best.change ? place : best),
    null,
  );
}

/** The place that begins nearest to a day; null without any. */
export function nearestPlace(places: readonly Place[], day: number): Place | null {
  return places.reduce<Place | null>(
    (best, place) =>
      best === null || Math.abs(place.start - day) < Math.abs(best.start - day) ? place : best,
    null,
  );
}

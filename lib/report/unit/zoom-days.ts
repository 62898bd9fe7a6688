/** Local days, both included. */
export type Days = { fromDay: number; toDay: number };

/** The first day there is something to see of, and today. */
export type DayLimits = { earliest: number; latest: number };

/** How much closer one step of zooming looks [-] (own choice). */
export const ZOOM_STEP = 2;
/** Share of the shown days that one step to the side moves by [-] (own choice). */
export const PAN_STEP = 0.5;

/** Days around a point of the shown ones, `factor` times as many; null where that shows no other days. */
export function zoomDays(shown: Days, factor: number, limits: DayLimits, centre = 0.5): Days | null {
  const length = shown.toDay - shown.fromDay + 1;
  const wished = Math.max(1, factor < 1 ? Math.floor(length * factor) : Math.ceil(length * factor));
  const fromDay = Math.round(shown.fromDay + (length - wished) * centre);
  return another(within({ fromDay, toDay: fromDay + wished - 1 }, limits), shown);
}

/** As many days, earlier (−1) or later (1) by `PAN_STEP`; null where there are none. */
export function panDays(shown: Days, direction: -1 | 1, limits: DayLimits): Days | null {
  const length = shown.toDay - shown.fromDay + 1;
  const step = direction * Math.max(1, Math.round(length * PAN_STEP));
  return another(within({ fromDay: shown.fromDay + step, toDay: shown.toDay + step }, limits), shown);
}

/** Days moved into the limits, cut to them where they are longer. */
export function within({ fromDay, toDay }: Days, { earliest, latest }: DayLimits): Days {
  const length = Math.min(toDay - fromDay, latest - earliest);
  const first = Math.min(Math.max(fromDay, earliest), latest - length);
  return { fromDay: first, toDay: first + length };
}

function another(days: Days, shown: Days): Days | null {
  return days.fromDay === shown.fromDay && days.toDay === shown.toDay ? null : days;
}

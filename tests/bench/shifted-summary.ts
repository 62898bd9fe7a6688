import type { UnitSummary } from '@/lib/report/fleet/unit-summary';

/** Clean-by days of copies lie up to so much later than those of the unit they are copies of [days]. */
const MOST_DAYS = 200;

/** The summary of a copy: as that of its model, but for its clean-by days and what it loses, so that an order is one. */
export function shiftSummary(model: UnitSummary, number: number): UnitSummary {
  const later = (number * 37) % MOST_DAYS;
  const share = 0.5 + ((number * 61) % 1000) / 1000;
  const day = (value: number | null) => (value === null ? null : value + later);
  const times = (value: number | null) => (value === null ? null : value * share);
  const { limit } = model;
  return {
    ...model,
    limit: limit && {
      ...limit,
      p10Day: day(limit.p10Day),
      p50Day: day(limit.p50Day),
      p90Day: day(limit.p90Day),
    },
    lostDuty: times(model.lostDuty),
    perDay: times(model.perDay),
  };
}

const WITH_OFFSET = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}.*(Z|[+-]\d{2}:?\d{2})$/i;

/** An instant stated with its offset [ms]; NaN where the offset is missing, for a local time would be a guess. */
export function instantWithOffset(text: string): number {
  return WITH_OFFSET.test(text) ? Date.parse(text) : Number.NaN;
}

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** The same, or a bare day, which begins at midnight UTC [ms]. */
export function instantOrDay(text: string): number {
  return DAY.test(text) ? Date.parse(text) : instantWithOffset(text);
}

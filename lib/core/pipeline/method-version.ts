/** Raised with every change that can move a stored figure; results of an older method are worked out anew. */
export const METHOD_VERSION = 8;

/** How far ahead a clean-by day is looked for [days]: two yearly outages. */
export const DEFAULT_HORIZON_DAYS = 730;

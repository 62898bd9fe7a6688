/** How a unit can stand, from clean to unknown. Apart from the schemas, so that a browser need not load those to know it. */
export const STATES = ['clean', 'fouling', 'near-limit', 'over-limit', 'no-data'] as const;

/** A guess at least this sure is called sure: of such ones fewer than one in a hundred may be wrong. */
export const SURE = 0.9;

/** Items of the fleet's list that travel at once. */
export const WINDOW_ITEMS = 30;
/** Up to so many units travel whole. */
export const WHOLE_UP_TO = 60;

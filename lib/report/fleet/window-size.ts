/** Items of the fleet's list that travel at once. */
export const WINDOW_ITEMS = 30;
/** Of a long list as many come with the page as a laptop shows; the others are fetched as soon as it runs. */
export const FIRST_ITEMS = 14;
/** Up to so many units travel whole. */
export const WHOLE_UP_TO = 60;

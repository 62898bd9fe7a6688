/** What a plan is made for where nobody says otherwise: weeks ahead [week], and the probability of being in time [-]. */
export const USUAL_PLAN_WEEKS = 52;
export const USUAL_CONFIDENCE = 0.9;

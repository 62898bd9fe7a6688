/**
 * Why a reading is left out. Each reason is one bit of a reading's mask; a reading is accepted when its mask is 0.
 * The order is the order of judgement: a reason further down is only looked for where those above left the value usable.
 */
export const REASONS = [
  'missing',
  'not-a-number',
  'out-of-range',
  'outside-fluid-range',
  'unit-off',
  'flow-below-turndown',
  'frozen-sensor',
  'spike',
  'reversed-temperatures',
  'terminal-difference-too-small',
  'effectiveness-above-limit',
  'balance-not-closed',
  'not-steady',
  'excluded-by-person',
] as const;

export type Reason = (typeof REASONS)[number];

export const REASON_BIT = Object.fromEntries(REASONS.map((reason, index) => [reason, 2 ** index])) as Record<
  Reason,
  number
>;

/** The reasons set in a mask, in order of judgement. */
export function reasonsOf(mask: number): Reason[] {
  return REASONS.filter((reason) => (mask & REASON_BIT[reason]) !== 0);
}

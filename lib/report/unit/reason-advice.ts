import type { Reason } from '@/lib/core/checks/reasons';

/** What a reason means, and what a person can do about it. */
export type ReasonAdvice = { meaning: string; advice: string };

export const REASON_ADVICE: Record<Reason, ReasonAdvice> = {
  missing: {
    meaning: 'Fewer values arrived than an evaluation needs.',
    advice: 'Check that the sensor is connected and that its column is still in the export.',
  },
  'not-a-number': {
    meaning: 'The file holds text where a number should stand.',
    advice: 'Look at how the export writes bad values, and leave them empty instead.',
  },
  'out-of-range': {
    meaning: 'A temperature or flow lies outside what this unit can have.',
    advice:
      'Check the sensor and its unit of measure; widen the range in the datasheet if the value is real.',
  },
  'outside-fluid-range': {
    meaning: 'The properties of the fluid are not known at this temperature; nothing is extrapolated.',
    advice: 'Check the temperature, and the fluid and its concentration in the datasheet.',
  },
  'unit-off': {
    meaning: 'Both flows are close to nothing: there is no duty to judge.',
    advice: 'Nothing to do if it was shut down. If it was running, check the flow meters.',
  },
  'flow-below-turndown': {
    meaning: 'A flow is so low that the film coefficients of the datasheet no longer hold.',
    advice:
      'Nothing to do if it ran at part load; lower the turndown share in the datasheet if that is its normal load.',
  },
  'frozen-sensor': {
    meaning: 'A sensor repeats the same value for hours while the others move.',
    advice: 'Check the transmitter, its cable and the data link; a dead band set too wide looks the same.',
  },
  spike: {
    meaning: 'A value jumps far from its neighbours and comes back.',
    advice: 'A few are normal. Many point to a loose connection or electrical noise.',
  },
  'reversed-temperatures': {
    meaning:
      'A temperature stands on the wrong side of another: the hot stream is not the hotter, or does not cool.',
    advice: 'Check whether two sensors are swapped, or whether the columns of the import are.',
  },
  'terminal-difference-too-small': {
    meaning: 'The streams come so close at one end that the sensors cannot tell them apart.',
    advice: 'Better matched or better calibrated temperature sensors would make these readings usable.',
  },
  'effectiveness-above-limit': {
    meaning: 'The temperatures ask for more heat transfer than this arrangement can give with any area.',
    advice: 'Check the arrangement in the datasheet, and the flows and temperatures against each other.',
  },
  'balance-not-closed': {
    meaning: 'The heat given off and the heat taken up differ by more than the sensors’ uncertainty allows.',
    advice:
      'One balance cannot tell which of six sensors is wrong. Start with the flow meters; they are the least certain.',
  },
  'not-steady': {
    meaning:
      'The unit was changing load: what goes in and what comes out at one instant do not belong together.',
    advice:
      'Nothing to do: readings count again once the unit has settled. If it never settles, look for a hunting control valve, or log averages over several minutes.',
  },
  'excluded-by-person': {
    meaning: 'Somebody said that these readings are not to be used; the history below says who and why.',
    advice: 'Withdraw the verdict there once its cause is gone.',
  },
};

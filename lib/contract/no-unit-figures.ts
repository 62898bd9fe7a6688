import type { UnitFigures } from './unit-figures';

/** What follows from an empty datasheet. */
export const NO_UNIT_FIGURES: UnitFigures = {
  area: null,
  channels: null,
  hotChannels: null,
  coldChannels: null,
  hotChannelVelocity: null,
  coldChannelVelocity: null,
  hotChannelReynolds: null,
  coldChannelReynolds: null,
  direction: null,
  advice: [],
  hotMassFlow: null,
  coldMassFlow: null,
  hotDuty: null,
  coldDuty: null,
  balance: null,
  lmtd: null,
  correction: null,
  effectiveness: null,
  ntu: null,
  impliedU: null,
  cleanU: null,
  films: null,
};

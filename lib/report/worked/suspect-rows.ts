import { balanceStreams } from '@/lib/core/fouling/close-balance';
import { soleBiases } from '@/lib/core/fouling/sole-biases';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import { BALANCE_SENSORS, NONE_INFERRED, PLACE, type WorkedState } from './worked-state';

/** What one sensor alone would have to read too much for the reading's balance not to close as it does. */
export type SuspectRow = { label: string; bias: string; share: string; inUncertainties: string };

/** The least demanding explanation first; empty where no balance is checked. */
export function suspectRows(state: WorkedState, system: UnitSystem): SuspectRow[] {
  if (state.inferred !== NONE_INFERRED || state.nominal !== 0) return [];
  return soleBiases(balanceStreams(state.model, state), state).map(({ place, bias, inUncertainties }) => {
    const isFlow = place >= PLACE.hotFlow;
    const closing = state.measured[place]! - bias;
    return {
      label: SENSOR_WORDS[BALANCE_SENSORS[place]!],
      bias: formatFigureText(bias, isFlow ? 'massFlow' : 'temperatureDifference', system, {
        digits: 3,
        signed: true,
      }),
      share: isFlow ? formatFigureText(bias / closing, 'fraction', system, { digits: 3, signed: true }) : '',
      inUncertainties: formatFigureText(inUncertainties, 'number', system, { decimals: 1, signed: true }),
    };
  });
}

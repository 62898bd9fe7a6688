import type { Fault } from '@/lib/contract/app-error';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import { type DesignState, designState } from './design-state';

/** What no area could do: a design point whose temperatures the arrangement cannot reach, where they must give the clean U. */
export function designFaults(exchanger: Exchanger): Fault[] {
  if (exchanger.design.cleanU !== null) return [];
  const state = designState(exchanger);
  if (state === null || state.impliedU > 0) return [];
  const message = `no area gives these temperatures in this arrangement${atMost(exchanger, state)}: check temperatures, flows and arrangement, or state the clean U`;
  return [{ field: 'design.coldOut', message }];
}

function atMost(exchanger: Exchanger, { effectiveness, ratio, side }: DesignState): string {
  const most = maximumEffectiveness(exchanger.arrangement, ratio, side);
  if (!(effectiveness > 0 && most > 0)) return '';
  return ` (effectiveness ${effectiveness.toFixed(2)}, at most ${most.toFixed(2)} here)`;
}

import type { Reason } from '@/lib/core/checks/reasons';
import { installedSensors } from '@/lib/core/fouling/installed-sensors';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { REASON_WORDS, SENSOR_WORDS } from '@/lib/report/format/words';
import { REASON_ADVICE, type ReasonAdvice } from '@/lib/report/unit/reason-advice';
import type { EvaluatedUnit } from '@/lib/report/worked/worked-state';

/** Why a typed reading does not count, and what to do about it while standing at the unit. */
export type SpotCheckReason = { name: string; meaning: string; advice: string };

/** What a person with hand instruments can do; where nothing stands here the advice for logged readings fits as well. */
const AT_THE_UNIT: Partial<Record<Reason, Partial<ReasonAdvice>>> = {
  missing: { meaning: 'Fewer values were given than an evaluation needs.' },
  'not-a-number': {
    meaning: 'A value is too large to be a number.',
    advice: 'Look for a slip of the pen, then take the reading again.',
  },
  'out-of-range': {
    advice: 'Check the value and its unit of measure; widen the range in the datasheet if the value is real.',
  },
  'unit-off': {
    meaning: 'The flows are close to nothing: there is no duty to judge.',
    advice: 'Check again once the unit is running; if it is running, check the flow meters.',
  },
  'flow-below-turndown': {
    advice:
      'Check again at a higher load, or lower the turndown share in the datasheet if this is its normal load.',
  },
  'reversed-temperatures': {
    advice: 'Look whether two values are swapped, inlet with outlet or hot with cold.',
  },
  'terminal-difference-too-small': {
    advice: 'Use better matched thermometers, and state their uncertainty above; or check at a higher load.',
  },
  'effectiveness-above-limit': {
    advice: 'Take the outlet temperatures and flows again; then check the arrangement in the datasheet.',
  },
  'balance-not-closed': {
    advice:
      'Let the unit settle and take all values again within a few minutes. If it stays, start with the flows: they are the least certain.',
  },
};

export function spotCheckReason(reason: Reason, checked: EvaluatedUnit): SpotCheckReason {
  const name = REASON_WORDS[reason].replace(/^./, (letter) => letter.toUpperCase());
  const words = { name, ...REASON_ADVICE[reason], ...AT_THE_UNIT[reason] };
  return reason === 'missing' ? { ...words, advice: missingAdvice(checked) } : words;
}

/** "Measure the hot flow or the cold flow as well." */
function missingAdvice({ record, readings }: EvaluatedUnit): string {
  const { missing } = installedSensors(unitModel(record.exchanger, record.settings), readings);
  const ways = missing.map((way) => way.map((sensor) => `the ${SENSOR_WORDS[sensor]}`).join(' and '));
  return `Measure ${ways.join(', or ')} as well; the rest then follows from the heat balance.`;
}

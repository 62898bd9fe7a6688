import { formatFigureText } from '../format/figure';
import { formatDay } from '../format/time';
import type { UnitSystem } from '../format/unit-system';
import type { Change } from './change';
import type { ChangeWords } from './change-words';
import type { CleaningDone } from './cleaning-done';
import { usedText } from './statement-words';
import type { UnitFacts } from './unit-facts';

/** A cleaning that was recorded, and what it did as far as can be told. */
export function cleaningWords(
  { day }: Change,
  { cleanings, now }: UnitFacts,
  system: UnitSystem,
): ChangeWords {
  const { method, effect } = cleanings.find((done) => done.day === day)!;
  const cleaned = `Cleaned on ${formatDay(day!)}${method === null ? '' : ` (${method})`}`;
  const today = now.allowanceUsed === null ? '' : `; ${usedText(now, system)} of the allowance used now`;
  if (effect === null) {
    return {
      text: `${cleaned}: what it did cannot be told yet${today}.`,
      advice: 'Nothing to do: its page says what is missing.',
    };
  }
  return {
    text: `${cleaned}: ${effectInWords(effect, system)}${today}.`,
    advice: effect.isPartial
      ? 'It left a part of the fouling: check the method, and whether the readings around it can be trusted.'
      : 'Nothing to do: its page shows what the cleaning brought.',
  };
}

function effectInWords(effect: NonNullable<CleaningDone['effect']>, system: UnitSystem): string {
  const fouling = (value: number, uncertainty: number) =>
    formatFigureText(value, 'foulingResistance', system, { uncertainty });
  const fell = `the fouling fell from ${fouling(effect.before, effect.beforeUncertainty)} to ${fouling(effect.after, effect.afterUncertainty)}`;
  if (effect.shareRecovered === null) return fell;
  const share = formatFigureText(effect.shareRecovered, 'fraction', system, {
    uncertainty: effect.shareRecoveredUncertainty,
  });
  return `${fell}, ${share} of it recovered`;
}

/** A fall that looks like a cleaning nobody recorded. */
export function fallWords({ day }: Change, { falls }: UnitFacts, system: UnitSystem): ChangeWords {
  const { fall, fallUncertainty, share } = falls.find((found) => found.day === day)!;
  const size = formatFigureText(fall, 'foulingResistance', system, { uncertainty: fallUncertainty });
  const part =
    share === null ? '' : ` (${formatFigureText(share, 'fraction', system, { digits: 2 })} of the allowance)`;
  return {
    text: `Probably cleaned before ${formatDay(day!)}: the fouling fell by ${size}${part}, and no cleaning is recorded.`,
    advice: 'Confirm the cleaning, or say that it was none, on its page.',
  };
}

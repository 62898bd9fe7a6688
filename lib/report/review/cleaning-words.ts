import { formatFigureText } from '../format/figure';
import { formatDay } from '../format/time';
import type { UnitSystem } from '../format/unit-system';
import type { Change } from './change';
import type { ChangeWords } from './change-words';
import { usedText } from './statement-words';
import type { UnitFacts } from './unit-facts';

/** A cleaning that leaves more than this share of what had been used has done little [-] (own choice). */
const LITTLE_DONE = 0.5;

/** A cleaning that was recorded, and what it did as far as can be told. */
export function cleaningWords(
  { day }: Change,
  { cleanings, now }: UnitFacts,
  system: UnitSystem,
): ChangeWords {
  const { method, dirty, clean } = cleanings.find((done) => done.day === day)!;
  const how = method === null ? '' : ` (${method})`;
  const percent = (share: number) => formatFigureText(share, 'fraction', system, { decimals: 0 });
  const used =
    dirty === null || clean === null
      ? 'what it did cannot be told yet'
      : `${percent(dirty)} of the allowance used just before, ${percent(clean)} just after, ${usedText(now, system)} now`;
  const isLittle = dirty !== null && clean !== null && clean > LITTLE_DONE * dirty;
  return {
    text: `Cleaned on ${formatDay(day!)}${how}: ${used}.`,
    advice: isLittle
      ? 'It recovered less than half: check the method, and whether the readings around it can be trusted.'
      : 'Nothing to do: its page shows what the cleaning brought.',
  };
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

import { formatFigureText } from '../format/figure';
import { formatDay } from '../format/time';
import { REASON_WORDS } from '../format/words';
import { REASON_ADVICE } from '../unit/reason-advice';
import type { Change } from './change';
import type { ChangeWords } from './change-words';
import { USABLE_FALL } from './data-changes';
import type { UnitFacts } from './unit-facts';

/** What got worse with the data, since when, and where to begin. */
export function dataWords(change: Change, facts: UnitFacts): ChangeWords {
  if (change.kind === 'no-data') return silent(change, facts);
  if (change.kind === 'suspect') return drifting(facts);
  return worse(change, facts);
}

function silent({ day }: Change, { now }: UnitFacts): ChangeWords {
  const since = `since ${formatDay(day!)}`;
  const { worstReason } = now;
  if (worstReason === 'unit-off')
    return { text: `Standing still ${since}.`, advice: REASON_ADVICE['unit-off'].advice };
  if (now.state !== 'no-data' || worstReason === null || worstReason === 'missing') {
    const stale = now.state === 'no-data' ? 'nothing can be said of it' : 'what is said of it is as of then';
    return {
      text: `No usable reading ${since}: none arrive, and ${stale}.`,
      advice: 'Find out where they stop: the logger, the link, or the import.',
    };
  }
  return {
    text: `No usable reading ${since}: ${REASON_WORDS[worstReason]}. Nothing can be said of it until that is mended.`,
    advice: REASON_ADVICE[worstReason].advice,
  };
}

function drifting({ now }: UnitFacts): ChangeWords {
  const { sinceDay, change, changeUncertainty } = now.drift!;
  const size = formatFigureText(change, 'fraction', 'si', { uncertainty: changeUncertainty, signed: true });
  return {
    text: `The heat balance has moved by ${size} since ${formatDay(sinceDay)}: some sensor is suspect, and what is said of the unit with it.`,
    advice: 'One balance cannot tell which sensor: compare each with another instrument, flow meters first.',
  };
}

function worse({ day }: Change, { now, before, beforeDay }: UnitFacts): ChangeWords {
  const reason = now.worstReason!;
  const since = day === null ? '' : ` since ${formatDay(day)}`;
  const earlier =
    before.usable === null ? '' : `, ${percent(before.usable)} on ${formatDay(beforeDay, { year: false })}`;
  const hasFallen = before.usable !== null && before.usable - now.usable! >= USABLE_FALL / 2;
  const was =
    hasFallen || before.worstReason === null || before.worstReason === reason
      ? ''
      : `, no longer ${REASON_WORDS[before.worstReason]}`;
  return {
    text: `${percent(now.usable!)} of its readings of the last 30 days are usable${earlier}. Main cause: ${REASON_WORDS[reason]}${since}${was}.`,
    advice: REASON_ADVICE[reason].advice,
  };
}

function percent(share: number): string {
  return formatFigureText(share, 'fraction', 'si', { decimals: 0 });
}

const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Days since 1970-01-01 of a day of the calendar; NaN where there is no such day. */
export function calendarDay(year: number, month: number, day: number): number {
  if (month < 1 || month > 12 || day < 1 || day > monthLength(year, month)) return Number.NaN;
  return daysSince1970(year, month, day);
}

function monthLength(year: number, month: number): number {
  const leap = month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return MONTH_LENGTHS[month - 1]! + (leap ? 1 : 0);
}

/** Years begin in March, so that the leap day is the last of its year and months have a regular pattern. */
function daysSince1970(year: number, month: number, day: number): number {
  const marchYear = month > 2 ? year : year - 1;
  const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  return marchYear * 365 + leapDays + dayOfYear - 719_468;
}

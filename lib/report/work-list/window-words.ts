import { formatInstant } from '@/lib/report/format/time';

/** "3 May 2027, 06:00 – 18:00", or both days where it ends on another. */
export function windowInWords({ from, to }: { from: number; to: number }, timeZone: string): string {
  const [start, end] = [formatInstant(from, timeZone), formatInstant(to, timeZone)];
  const day = start.slice(0, start.lastIndexOf(', '));
  return end.startsWith(`${day}, `) ? `${start} – ${end.slice(day.length + 2)}` : `${start} – ${end}`;
}

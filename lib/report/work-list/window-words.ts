import { formatInstant } from '@/lib/report/format/time';

/** "3 May 2027, 06:00 – 18:00", "30 May 2027, 06:00 – 1 Jun, 06:00"; both years where it ends in another. */
export function windowInWords({ from, to }: { from: number; to: number }, timeZone: string): string {
  const [start, end] = [formatInstant(from, timeZone), formatInstant(to, timeZone)];
  const day = start.slice(0, start.lastIndexOf(', '));
  if (end.startsWith(`${day}, `)) return `${start} – ${end.slice(day.length + 2)}`;
  const year = day.slice(day.lastIndexOf(' '));
  return `${start} – ${end.replace(`${year}, `, ', ')}`;
}

import { cookies } from 'next/headers';
import { UNIT_SYSTEMS, type UnitSystem } from '@/lib/report/format/unit-system';

const THEMES = ['auto', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

/** What an address holds after `?`, as Next hands it over. */
export type SearchParams = Record<string, string | string[] | undefined>;

/** The reader's unit system: the address first, so that a link shows the same thing, then the cookie, then SI. */
export async function readUnitSystem(searchParams: SearchParams = {}): Promise<UnitSystem> {
  const wanted = [searchParams.units, (await cookies()).get('units')?.value];
  return (
    UNIT_SYSTEMS.find((system) => system === wanted[0]) ??
    UNIT_SYSTEMS.find((system) => system === wanted[1]) ??
    'si'
  );
}

/** The theme of the cookie; `auto` follows the device. */
export async function readTheme(): Promise<Theme> {
  const wanted = (await cookies()).get('theme')?.value;
  return THEMES.find((theme) => theme === wanted) ?? 'auto';
}

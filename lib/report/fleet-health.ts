import type { FleetHealth, UnitResult } from '@/lib/contract/results';

/** Data health of some units, by tag, and of all of them together. */
export function fleetHealth(results: readonly Pick<UnitResult, 'tag' | 'health'>[]): FleetHealth {
  const units = results
    .map(({ tag, health }) => ({ tag, ...health }))
    .sort((a, b) => a.tag.localeCompare(b.tag, 'en', { numeric: true }));
  const shares = units.flatMap(({ usable }) => usable ?? []);
  return {
    units,
    fleet: {
      units: units.length,
      usable: shares.length === 0 ? null : shares.reduce((sum, share) => sum + share, 0) / shares.length,
      suspect: units.filter(({ suspectSince }) => suspectSince !== null).length,
    },
  };
}

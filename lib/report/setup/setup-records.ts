import type { Site, Unit } from '@/lib/contract/fleet-file';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { draftFromUnit } from './draft-from-unit';
import { emptyDraft, type UnitDraft } from './unit-draft';

/** What the forms for a new and for a known unit begin with. */
export type SetupRecords = {
  sites: Site[];
  /** Supplies whose prices or factors are stated, by the name of the site. */
  supplyNames: Record<string, string[]>;
  timeZones: string[];
  /** The unit to edit; null for a new one. */
  known: { tag: string; site: Site; unit: Unit; version: number } | null;
};

export type SetupView = {
  /** Null for a new unit. */
  tag: string | null;
  version: number | null;
  sites: Site[];
  supplyNames: Record<string, string[]>;
  timeZones: string[];
  system: UnitSystem;
  draft: UnitDraft;
};

export function setupView(records: SetupRecords, system: UnitSystem): SetupView {
  const { sites, supplyNames, timeZones, known } = records;
  const onlySite = sites.length === 1 ? sites[0]! : null;
  return {
    tag: known?.tag ?? null,
    version: known?.version ?? null,
    sites,
    supplyNames,
    timeZones,
    system,
    draft: known === null ? emptyDraft(system, onlySite) : draftFromUnit(known.unit, known.site, system),
  };
}

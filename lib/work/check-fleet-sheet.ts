import type { FleetFile, Unit } from '@/lib/contract/fleet-file';
import { type FleetSheetCheck, MOST_FAULTS } from '@/lib/contract/fleet-sheet/answer';
import { readFleetSheet } from '@/lib/ingest/fleet-sheet/read-fleet-sheet';
import { rowFault } from '@/lib/ingest/fleet-sheet/read-table';
import type { FleetSheetReading, SheetFault } from '@/lib/ingest/fleet-sheet/sheet-rows';
import { changesInWords } from '@/lib/report/fleet-sheet/changes-in-words';
import { listSites, listUnits, listVersions, type StoredUnit } from '@/lib/store/entities/units';
import type { Context } from './context';
import { type SheetFluids, sheetFluids } from './sheet-fluids';
import { readKnownPrices } from './sheet-prices';
import { noSite, type SheetSites, sheetSites, sheetSupplies } from './sheet-sites';
import { checkedUnit, strayDetails } from './sheet-unit-faults';
import { rowsByUnit, rowWith, type UnitRows, unitDifference } from './sheet-units';

/** A workbook checked against what is known: what it would do, and the fleet files that would do it. */
export type CheckedFleetSheet = {
  check: FleetSheetCheck;
  /** True where nothing is wrong but that somebody else has changed something since. */
  isConflictOnly: boolean;
  fleets: FleetFile[];
  /** Versions the rows were edited from; null for a unit that must still be new. */
  editedFrom: Map<string, number | null>;
};

type Told = { faults: SheetFault[]; conflicts: SheetFault[]; notes: string[] };
type Known = { sites: SheetSites; fluids: SheetFluids; units: Map<string, StoredUnit> };
type UnitOutcome = { said: FleetSheetCheck['units'][number]; unit: Unit; version: number | null };

/**
 * Reads a fleet sheet and says what it would do. Nothing is stored.
 *
 * @throws AppError 'not-readable' or 'too-large' for what is no fleet sheet
 */
export async function checkFleetSheet(context: Context, bytes: Uint8Array): Promise<CheckedFleetSheet> {
  const reading = await readFleetSheet(bytes);
  const { entities } = context.store;
  const told: Told = { faults: reading.faults, conflicts: [], notes: reading.notes };
  const stored = await listUnits(entities);
  const known: Known = {
    sites: sheetSites(reading.tables, await listSites(entities), told.faults),
    fluids: sheetFluids(reading.tables, told.faults),
    units: new Map(stored.map((unit) => [unit.tag, unit])),
  };
  const outcomes: UnitOutcome[] = [];
  const rows = rowsByUnit(reading.tables, told.faults);
  for (const unit of rows) {
    const stray = known.units.has(unit.tag) ? null : strayDetails(unit, reading.tables);
    if (stray !== null) {
      told.faults.push(stray);
      continue;
    }
    const outcome = await outcomeOf(context, unit, { known, told });
    if (outcome !== null) outcomes.push(outcome);
  }
  if (rows.length === 0 && told.faults.length === 0) told.faults.push(noRows(reading));
  noteUnused(known.fluids, told.notes);
  return summed(context, { reading, known, told, outcomes });
}

async function outcomeOf(
  context: Context,
  rows: UnitRows,
  { known, told }: { known: Known; told: Told },
): Promise<UnitOutcome | null> {
  const stored = known.units.get(rows.tag) ?? null;
  const site = siteOf(rows, stored, { sites: known.sites, faults: told.faults });
  // Without a site its other cells are looked at all the same, so that everything is told at once.
  const timeZone = site === null ? 'UTC' : known.sites.all.get(site)!.site.timeZone;
  const asked = { timeZone, fluids: known.fluids, faults: told.faults };
  const difference = unitDifference(rows, stored?.unit ?? null, asked);
  const isUnread = rows.rows.some(({ unread }) => unread.size > 0);
  if (site === null) {
    told.faults.push(...checkedUnit(rows, difference).faults);
    return null;
  }
  const moved =
    stored !== null && stored.site.name !== site ? [{ before: stored.site.name, after: site }] : [];
  const isSame = stored !== null && difference.changes.length === 0 && moved.length === 0;
  const said = { tag: rows.tag, site, row: rows.rows[0]!.row };
  if (isSame && !isUnread) {
    const unchanged = { ...said, outcome: 'unchanged' as const, changes: [] };
    return { said: unchanged, unit: stored.unit, version: stored.version };
  }
  if (stored !== null && (await isOvertaken(context, rows, { stored, asked, told }))) return null;
  const { unit, faults } = checkedUnit(rows, difference);
  told.faults.push(...faults);
  if (unit === null) return null;
  const changes = stored === null ? [] : changesInWords(difference.changes, moved[0] ?? null);
  const outcome = stored === null ? 'added' : 'updated';
  return { said: { ...said, outcome, changes }, unit, version: stored?.version ?? null };
}

/** Where a unit stands; null where that is not clear, which is added to the faults. */
function siteOf(
  rows: UnitRows,
  stored: StoredUnit | null,
  { sites, faults }: { sites: SheetSites; faults: SheetFault[] },
): string | null {
  const row = rowWith(rows, 'site');
  const site = row?.values.get('site') ?? stored?.site.name ?? sites.only;
  if (typeof site === 'string' && sites.all.has(site)) return site;
  if (row?.unread.has('site')) return null;
  faults.push({ ...rowFault(row ?? rows.rows[0]!, 'site', noSite(site, sites)), tag: rows.tag });
  return null;
}

type Overtaking = { stored: StoredUnit; asked: Parameters<typeof unitDifference>[2]; told: Told };

/** Whether a row was written out from an older version: a conflict where it was edited, passed over where it was left as it was. */
async function isOvertaken(
  context: Context,
  rows: UnitRows,
  { stored, asked, told }: Overtaking,
): Promise<boolean> {
  const row = rowWith(rows, 'version');
  const version = row?.values.get('version');
  if (row === null || version === undefined || version === stored.version) return false;
  const versions = await listVersions(context.store.entities, stored.id);
  const base = versions.find(({ number }) => number === version)?.unit;
  // Faults of the cells are told by the comparison with what stands now.
  const isLeft =
    base !== undefined && unitDifference(rows, base, { ...asked, faults: [] }).changes.length === 0;
  if (isLeft) {
    told.notes.push(
      `${rows.tag} has been changed since this was downloaded (version ${stored.version} now); its row was not edited and was left out`,
    );
    return true;
  }
  const why =
    base === undefined
      ? `there is no version ${version} of ${rows.tag}`
      : `somebody has changed ${rows.tag} since: this is version ${version}, now there is version ${stored.version}`;
  const message = `${why}; download the fleet anew, and make your changes there`;
  told.conflicts.push({ ...rowFault(row, 'version', message), tag: rows.tag });
  return true;
}

function noRows({ tables }: FleetSheetReading): SheetFault {
  const { sheet } = tables.find(({ table }) => table === 'units')!;
  const message = 'has no unit below its headings; fill in one row per unit (the example row is not read)';
  return { sheet, row: null, cell: null, heading: null, tag: null, message };
}

function noteUnused({ all }: SheetFluids, notes: string[]): void {
  for (const { key, rows, isUsed } of all) {
    if (!isUsed) notes.push(`${rows[0]!.sheet}, row ${rows[0]!.row}: no custom fluid is called so (${key})`);
  }
}

/** A cell that several units share, such as one of their fluid, is told once. */
function withoutRepeats(faults: SheetFault[]): SheetFault[] {
  const seen = new Map<string, SheetFault>();
  for (const fault of faults) {
    const key = JSON.stringify([fault.sheet, fault.cell, fault.message]);
    const first = seen.get(key);
    seen.set(key, first === undefined || first.tag === fault.tag ? fault : { ...first, tag: null });
  }
  return [...seen.values()];
}

type Outcome = { reading: FleetSheetReading; known: Known; told: Told; outcomes: UnitOutcome[] };

async function summed(
  context: Context,
  { reading, known, told, outcomes }: Outcome,
): Promise<CheckedFleetSheet> {
  const prices = await readKnownPrices(context);
  const supplies = sheetSupplies(reading.tables, { sites: known.sites, known: prices }, told.faults);
  const fleets: FleetFile[] = [];
  const sites: FleetSheetCheck['sites'] = [];
  for (const [name, { site, outcome }] of known.sites.all) {
    const here = outcomes.filter(({ said }) => said.site === name);
    const changed = here.filter(({ said }) => said.outcome !== 'unchanged');
    const stated = supplies.get(name) ?? [];
    if (outcome !== 'unchanged' && here.length > 0) sites.push({ name, outcome });
    const isDue = changed.length > 0 || stated.length > 0 || outcome !== 'unchanged';
    // Units that are as they were stay out of it, but a fleet file has at least one.
    const units = changed.length > 0 ? changed : here.slice(0, 1);
    if (isDue && units.length > 0)
      fleets.push({ site: { ...site, supplies: stated }, units: units.map(({ unit }) => unit) });
    else if (isDue)
      told.notes.push(`The site "${name}" has no unit on these sheets; what is stated of it was left out`);
  }
  const faults = withoutRepeats([...told.faults, ...told.conflicts]);
  return {
    check: {
      faults: faults.slice(0, MOST_FAULTS),
      faultCount: faults.length,
      notes: told.notes,
      units: outcomes.map(({ said }) => said),
      sites,
      prices: [...supplies.values()].reduce((sum, each) => sum + each.length, 0),
    },
    isConflictOnly: told.faults.length === 0 && told.conflicts.length > 0,
    fleets,
    editedFrom: new Map(outcomes.map(({ said, version }) => [said.tag, version])),
  };
}

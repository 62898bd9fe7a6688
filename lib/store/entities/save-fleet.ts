import { changedFields } from '@/lib/contract/changed-fields';
import type { FleetFile, Site, Unit } from '@/lib/contract/fleet-file';
import type { Making } from './change';
import { addStatedSupplies } from './supplies';
import { fromRow, isUsing, newestVersion, type UnitRow } from './units';

type SavedUnits = {
  added: string[];
  updated: string[];
  unchanged: string[];
};

/** What a fleet file did; `conflict` names a unit that is not as it was when somebody began to edit it: nothing was saved. */
export type SavedFleet = SavedUnits & { conflict: { tag: string; version: number } | null };

export type FleetToSave = FleetFile & {
  /** Versions that datasheets were edited from; null for a unit that must be new. Units not named may be as they are. */
  editedFrom?: ReadonlyMap<string, number | null>;
  /** Since when a unit is due whose money alone is another one [ms]. */
  repricedSince: number;
};

/**
 * Adds or updates units of one site, with the prices it states; a datasheet that differs becomes a new version. All units of the
 * file or none.
 */
export async function saveFleet(making: Making, fleet: FleetToSave): Promise<SavedFleet> {
  const saved: SavedFleet = {
    added: [],
    updated: [],
    unchanged: [],
    conflict: await conflictOf(making, fleet),
  };
  if (saved.conflict !== null) return saved;
  const siteId = await saveSite(making, fleet);
  for (const unit of fleet.units) {
    const outcome = await saveUnit(making, { unit, siteId, siteName: fleet.site.name });
    saved[outcome].push(unit.tag);
  }
  return saved;
}

async function conflictOf(
  { transaction }: Making,
  { editedFrom }: FleetToSave,
): Promise<SavedFleet['conflict']> {
  for (const [tag, version] of editedFrom ?? []) {
    const known = await transaction.unit.findUnique({ where: { tag }, include: newestVersion });
    const number = known === null ? null : known.versions[0]!.number;
    if (number !== version) return { tag, version: number ?? 0 };
  }
  return null;
}

/** Brings the site up to date and marks due what that reaches. */
async function saveSite(making: Making, { site: stated, repricedSince }: FleetToSave): Promise<number> {
  const { transaction } = making;
  const { supplies = [], ...site } = stated;
  const before = await transaction.site.findUnique({
    where: { name: site.name },
    include: { units: { include: newestVersion } },
  });
  const { id } = await transaction.site.upsert({ where: { name: site.name }, create: site, update: site });
  await recordSite(making, site, before);
  const pricedAnew = await addStatedSupplies(making, { id, name: site.name, supplies });
  for (const row of before?.units ?? []) {
    // Days are cut at the site's midnight: another zone makes every unit of the site due.
    if (before!.timeZone !== site.timeZone) await making.markDue(row.id, 0);
    else if (before!.currency !== site.currency || isUsing(fromRow(row).unit, pricedAnew))
      await making.markDue(row.id, repricedSince);
  }
  return id;
}

async function recordSite(making: Making, site: Site, known: Site | null): Promise<void> {
  const { name, timeZone, currency } = site;
  const changed = changedFields(
    known === null ? {} : { timeZone: known.timeZone, currency: known.currency },
    { timeZone, currency },
  );
  if (Object.keys(changed.after).length === 0) return;
  await making.record({
    subject: 'site',
    name,
    action: known === null ? 'added' : 'changed',
    ...changed,
    before: known === null ? null : changed.before,
  });
}

type UnitToSave = { unit: Unit; siteId: number; siteName: string };

async function saveUnit(making: Making, { unit, siteId, siteName }: UnitToSave): Promise<keyof SavedUnits> {
  const { transaction, by } = making;
  const document = JSON.stringify(unit);
  const known = await transaction.unit.findUnique({ where: { tag: unit.tag }, include: newestVersion });
  const version = { document, createdAt: new Date(making.at), createdBy: by };
  if (known === null) {
    const versions = { create: { number: 1, ...version } };
    const { id } = await transaction.unit.create({ data: { tag: unit.tag, siteId, versions } });
    const after = { version: 1, site: siteName, service: unit.service ?? null, limits: unit.limits };
    await making.record({ subject: 'unit', name: unit.tag, action: 'added', after });
    await making.markDue(id, 0);
    return 'added';
  }
  if (known.versions[0]!.document === document && known.siteId === siteId) return 'unchanged';
  const number = known.versions[0]!.number + 1;
  await transaction.unit.update({
    where: { id: known.id },
    data: { siteId, versions: { create: { number, ...version } } },
  });
  await recordUnit(making, known, { unit, siteName });
  await making.markDue(known.id, 0);
  return 'updated';
}

/** Every field that changed; each limit in a line of its own, for that is what people look for. */
async function recordUnit(
  making: Making,
  row: UnitRow,
  { unit, siteName }: Pick<UnitToSave, 'unit' | 'siteName'>,
): Promise<void> {
  const known = fromRow(row);
  const { limits: _, ...now } = unit;
  const { limits: _before, ...old } = known.unit;
  const fields = changedFields({ site: known.site.name, ...old }, { site: siteName, ...now });
  const hasFields = Object.keys({ ...fields.before, ...fields.after }).length > 0;
  if (hasFields) await making.record({ subject: 'unit', name: unit.tag, action: 'changed', ...fields });
  const [limitsBefore, limitsNow] = [limitsOf(known.unit), limitsOf(unit)];
  for (const key of new Set([...limitsBefore.keys(), ...limitsNow.keys()])) {
    const [before, after] = [limitsBefore.get(key) ?? null, limitsNow.get(key) ?? null];
    if (JSON.stringify(before) === JSON.stringify(after)) continue;
    const action = before === null ? 'added' : after === null ? 'withdrawn' : 'changed';
    await making.record({ subject: 'limit', name: unit.tag, action, before, after });
  }
}

/** Limits by what they are about: a unit has one of each. */
function limitsOf({ limits }: Unit): Map<string, Unit['limits'][number]> {
  return new Map(limits.map((limit) => [`${limit.kind} ${'stream' in limit ? limit.stream : ''}`, limit]));
}

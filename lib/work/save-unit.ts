import { z } from 'zod';
import { AppError, type Fault } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import type { FleetFile } from '@/lib/contract/fleet-file';
import { onlyKnown } from '@/lib/contract/only-known';
import { findUnit } from '@/lib/store/entities/units';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { checkFleet, registerFleet } from './register-fleet';
import { bringUpToDate } from './take-readings';

/** One unit with its site; `version` is the datasheet version it was edited from, absent or null for a new unit. */
const requestSchema = onlyKnown({
  site: z.unknown(),
  unit: z.unknown(),
  version: z.int().min(1).nullish(),
});

export type SavedUnit = {
  tag: string;
  version: number;
  outcome: 'added' | 'updated' | 'unchanged';
  isAnalysed: boolean;
};

/**
 * Adds a unit, or gives a known one a new version of its datasheet, and brings its results up to date.
 *
 * @throws AppError 'invalid-input' naming each field, 'conflict' where somebody else has changed the unit since
 */
export async function saveUnit(context: Context, document: unknown): Promise<SavedUnit> {
  const { fleet, faults, version } = await checkUnit(context, document);
  if (fleet === null) throw new AppError('invalid-input', 'The unit was not saved', faults);
  const { tag } = fleet.units[0]!;
  await refuseUnknown(context, tag, version);
  const saved = await registerFleet(context, fleet, new Map([[tag, version]]));
  if (saved.conflict !== null) throw await changedMeanwhile(context, tag, version);
  const outcome = saved.added.length > 0 ? 'added' : saved.updated.length > 0 ? 'updated' : 'unchanged';
  const isAnalysed = await bringUpToDate(context);
  const stored = await findUnit(context.store.entities, tag);
  return { tag, version: stored!.version, outcome, isAnalysed };
}

export type CheckedUnit = { fleet: FleetFile | null; faults: Fault[]; version: number | null };

/** What a person must mend before a unit can be saved; `fleet` is null while there is anything. */
export async function checkUnit(context: Context, document: unknown): Promise<CheckedUnit> {
  const parsed = requestSchema.safeParse(document);
  if (!parsed.success) return { fleet: null, faults: faultsOf(parsed.error), version: null };
  const version = parsed.data.version ?? null;
  const checked = checkOne(parsed.data);
  if (version === null) checked.faults.push(...(await tagFaults(context, parsed.data.unit)));
  return checked.faults.length > 0
    ? { fleet: null, faults: checked.faults, version }
    : { ...checked, version };
}

function checkOne({ site, unit }: { site?: unknown; unit?: unknown }): {
  fleet: FleetFile | null;
  faults: Fault[];
} {
  try {
    return { fleet: checkFleet({ site, units: [unit] }), faults: [] };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return { fleet: null, faults: error.faults.map(pointedAtUnit) };
  }
}

/** `units[0] (E-101).design.hotIn` of a fleet file is `unit.design.hotIn` here. */
function pointedAtUnit(fault: Fault): Fault {
  return { ...fault, field: fault.field.replace(/^units\[0\](?: \([^)]*\))?/, 'unit') };
}

async function tagFaults(context: Context, unit: unknown): Promise<Fault[]> {
  const tag = typeof unit === 'object' && unit !== null && 'tag' in unit ? unit.tag : null;
  if (typeof tag !== 'string' || (await findUnit(context.store.entities, tag)) === null) return [];
  return [
    { field: 'unit.tag', message: `there is already a unit "${tag}"; open it to change its datasheet` },
  ];
}

async function refuseUnknown(context: Context, tag: string, version: number | null): Promise<void> {
  if (version === null || (await findUnit(context.store.entities, tag)) !== null) return;
  throw new AppError('not-found', `There is no unit "${tag}" to change`);
}

/** That the datasheet has another version by now, or that the tag of a new unit was given away. */
async function changedMeanwhile(context: Context, tag: string, version: number | null): Promise<AppError> {
  const stored = (await findUnit(context.store.entities, tag))!;
  const what =
    version === null
      ? `There is a unit ${tag} by now; it`
      : `${tag} (you edited version ${version}, now there is version ${stored.version})`;
  return editConflict(context, {
    what,
    timeZone: stored.site.timeZone,
    changes: { subjects: ['unit', 'limit'], name: tag },
    field: 'version',
  });
}

export type TakenFleet = { added: string[]; updated: string[]; unchanged: string[]; isAnalysed: boolean };

/** Registers a fleet file and brings results up to date. @throws AppError 'invalid-input' naming each field of each unit */
export async function takeFleet(context: Context, document: unknown): Promise<TakenFleet> {
  const { added, updated, unchanged } = await registerFleet(context, document);
  return { added, updated, unchanged, isAnalysed: await bringUpToDate(context) };
}

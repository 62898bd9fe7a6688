import type { CleanReferenceRecord, ReferenceMethod } from '@/lib/contract/clean-references';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import type { CheckSettings } from '@/lib/core/checks/check-settings';
import { AS_ON_DATASHEET, type CleanFactors } from '@/lib/core/clean/clean-reference';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import type { UnitBasis } from '@/lib/report/records';
import type { StoredBasis } from '@/lib/store/entities/results';
import type { StoredVersion } from '@/lib/store/entities/units';
import { statedFactors } from './clean-test';

/** The first basis reaches back for ever, whatever it says [ms]. */
const FOR_EVER = 0;

/** What holds from an instant on; null = from the beginning. */
type Since<T> = { from: number | null; what: T };

/**
 * What each stretch of a unit's record is judged by. Going through the datasheet versions by number, each overrides
 * everything from its `validFrom` on, or all of it where it states none; so do the clean references with their `from`.
 * Where no reference holds, factors still being learned do, else what the datasheet says itself of the clean unit.
 */
export function planBases(
  versions: readonly StoredVersion[],
  references: readonly Pick<CleanReferenceRecord, 'number' | 'from' | 'method' | 'factors'>[],
  provisional: CleanFactors | null = null,
): StoredBasis[] {
  const datasheets = overriding(versions.map((what) => ({ from: validFrom(what), what })));
  const accepted = overriding(references.map((what) => ({ from: what.from, what })));
  const starts = new Set([...datasheets, ...accepted].flatMap(({ from }) => from ?? []));
  const instants = [Number.NEGATIVE_INFINITY, ...[...starts].sort((a, b) => a - b)];
  const plan = instants.map((at): StoredBasis => {
    // A unit whose first datasheet states since when it holds had no other before.
    const version = (holdingAt(datasheets, at) ?? datasheets[0]!).what;
    const reference = holdingAt(accepted, at)?.what ?? null;
    return {
      from: Math.max(FOR_EVER, at),
      unitVersion: version.number,
      reference: reference?.number ?? null,
      clean: reference === null ? (version.unit.clean ?? 'datasheet') : CLEAN_BY[reference.method],
      cleanFactors: reference?.factors ?? provisional ?? statedFactors(version.unit),
    };
  });
  return plan.filter((basis, index) => index === 0 || !isSame(basis, plan[index - 1]!));
}

const CLEAN_BY: Record<ReferenceMethod, StoredBasis['clean']> = {
  datasheet: 'datasheet',
  test: 'test',
  scale: 'learned',
  'two-films': 'learned',
};

/** Since when a datasheet version says it holds [ms]; null for a correction of everything. */
export function validFrom({ unit }: Pick<StoredVersion, 'unit'>): number | null {
  return unit.validFrom === undefined ? null : Date.parse(unit.validFrom);
}

function overriding<T>(rows: readonly Since<T>[]): Since<T>[] {
  return rows.reduce<Since<T>[]>((before, row) => {
    const earlier = before.filter(({ from }) => row.from !== null && (from === null || from < row.from));
    return [...earlier, row];
  }, []);
}

function holdingAt<T>(rows: readonly Since<T>[], at: number): Since<T> | null {
  return rows.findLast(({ from }) => from === null || from <= at) ?? null;
}

function isSame(a: StoredBasis, b: StoredBasis): boolean {
  return a.unitVersion === b.unitVersion && a.reference === b.reference;
}

/** A plan with the datasheets in SI, ready to evaluate by; the exchanger says how its clean reference was found. */
export function toBases(plan: readonly StoredBasis[], versions: readonly StoredVersion[]): UnitBasis[] {
  return plan.map(({ from, unitVersion, reference, clean, cleanFactors }) => {
    const { unit } = versions.find(({ number }) => number === unitVersion)!;
    const { exchanger, settings } = inSi(unit);
    return {
      from,
      unitVersion,
      reference,
      cleanFactors,
      exchanger: withClean(exchanger, clean),
      settings,
    };
  });
}

type InSi = { exchanger: Exchanger; settings: CheckSettings };

/** Datasheets in SI; they are never changed, and the core keeps what follows from an exchanger with it. */
const KNOWN = new WeakMap<Unit, InSi>();

function inSi(unit: Unit): InSi {
  const known = KNOWN.get(unit);
  if (known !== undefined) return known;
  const made = { exchanger: toExchanger(unit), settings: toCheckSettings(unit) };
  KNOWN.set(unit, made);
  return made;
}

const WITH_CLEAN = new WeakMap<Exchanger, Map<Exchanger['clean'], Exchanger>>();

function withClean(exchanger: Exchanger, clean: Exchanger['clean']): Exchanger {
  const by = WITH_CLEAN.get(exchanger) ?? new Map<Exchanger['clean'], Exchanger>();
  WITH_CLEAN.set(exchanger, by);
  const made = by.get(clean) ?? { ...exchanger, clean };
  by.set(clean, made);
  return made;
}

/** The datasheets of a unit with their clean resistances as stated, to learn factors by. */
export function datasheetBases(versions: readonly StoredVersion[]): UnitBasis[] {
  return toBases(planBases(versions, [], AS_ON_DATASHEET), versions);
}

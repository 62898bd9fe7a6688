import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { type CleanFactors, scaledFactors } from '@/lib/core/clean/clean-reference';
import { cleanTestScale } from '@/lib/core/clean/clean-test';
import { filmVariants } from '@/lib/core/clean/film-variants';
import { learnFactors } from '@/lib/core/clean/learn-factors';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { basisAt } from '@/lib/core/fouling/evaluate-over';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { median } from '@/lib/core/stats/quantile';
import type { FilmSensitivity, UnitBasis } from '@/lib/report/records';
import { listReferences } from '@/lib/store/entities/references';
import type { StoredResult } from '@/lib/store/entities/results';
import type { StoredUnit, StoredVersion } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { statedTest } from './clean-test';
import type { Context } from './context';
import { toBases } from './unit-bases';

/**
 * What the last day's fouling resistance changes by when an exponent or the split of the films is moved. A reference that
 * was learned, or tested, is learned anew each time from the same readings: that is how far it can make up for the
 * assumption. Null before the first accepted reading.
 */
export async function filmSensitivity(
  context: Context,
  stored: StoredUnit,
  { known, versions }: { known: StoredResult; versions: StoredVersion[] },
): Promise<FilmSensitivity | null> {
  const { lastReading, governing, limits } = known.trend;
  if (lastReading === null || known.basis.length === 0) return null;
  const day = await lastDay(context, stored, lastReading);
  const basis = basisAt(toBases(known.basis, versions), lastReading);
  const relearn = await relearning(context, stored, { known, versions, basis });
  const foulingWith = (exchanger: Exchanger, cleanFactors: CleanFactors) =>
    medianFouling({ exchanger, cleanFactors, basis, day, nominal: known.nominal });
  const { films } = basis.exchanger;
  return {
    day: day.localDay,
    films,
    foulingResistance: foulingWith(basis.exchanger, basis.cleanFactors),
    allowance: governing === null ? null : limits[governing]!.foulingResistance,
    rows: filmVariants(films).map(({ name, step, films: moved }) => {
      const exchanger = { ...basis.exchanger, films: moved };
      return {
        name,
        step,
        value: moved[name],
        foulingResistance: foulingWith(exchanger, relearn(exchanger)),
      };
    }),
  };
}

type Day = { localDay: number; from: number; to: number; readings: ReadingColumns };

async function lastDay(context: Context, { id, site }: StoredUnit, at: number): Promise<Day> {
  const day = localDay(at, site.timeZone);
  const [from, to] = [startOfLocalDay(day, site.timeZone), startOfLocalDay(day + 1, site.timeZone)];
  const { series } = context.store;
  const readings = await series.readReadings(id, from - CHECK_REACH_MS, to + CHECK_REACH_MS);
  return { localDay: day, from, to, readings };
}

function medianFouling(input: {
  exchanger: Exchanger;
  cleanFactors: CleanFactors;
  basis: UnitBasis;
  day: Day;
  nominal: number;
}): number | null {
  const { basis, day, ...rest } = input;
  const { settings } = basis;
  const { readings, from, to } = day;
  const evaluated = evaluateReadings({ ...rest, settings, readings });
  const { time, reasons, foulingResistance } = evaluated;
  const values = foulingResistance.filter((_, i) => reasons[i] === 0 && time[i]! >= from && time[i]! < to);
  return values.length === 0 ? null : median(values);
}

/** Factors as the reference in force would have got them with other films. */
async function relearning(
  context: Context,
  stored: StoredUnit,
  { known, versions, basis }: { known: StoredResult; versions: StoredVersion[]; basis: UnitBasis },
): Promise<(exchanger: Exchanger) => CleanFactors> {
  const { entities, series } = context.store;
  const references = await listReferences(entities, stored.id);
  const reference = references.find(({ number }) => number === basis.reference) ?? null;
  const unitOf = (version: number) => versions.find(({ number }) => number === version)!.unit;
  const isTested = reference === null ? basis.exchanger.clean === 'test' : reference.method === 'test';
  if (isTested) {
    const test = statedTest(unitOf(reference?.unitVersion ?? basis.unitVersion));
    return (exchanger) => testedFactors(exchanger, basis, test);
  }
  const evidence = reference?.evidence ?? null;
  if (reference === null || evidence === null) return () => basis.cleanFactors;
  const readings = await series.readReadings(
    stored.id,
    evidence.from - CHECK_REACH_MS,
    evidence.to + CHECK_REACH_MS,
  );
  const then = toBases(
    [{ ...basis, clean: basis.exchanger.clean, unitVersion: reference.unitVersion }],
    versions,
  )[0]!;
  return ({ films }) =>
    learnedFactors(
      reference,
      { ...then, exchanger: { ...then.exchanger, films } },
      { readings, evidence, nominal: known.nominal },
    ) ?? basis.cleanFactors;
}

function testedFactors(exchanger: Exchanger, basis: UnitBasis, test: ReadingColumns | null): CleanFactors {
  const scale = test === null ? null : cleanTestScale(exchanger, basis.settings, test).scale;
  return scale === null ? basis.cleanFactors : scaledFactors(scale);
}

/** Also where the other films could not be told apart: the question is what would have come out. */
function learnedFactors(
  { method }: CleanReferenceRecord,
  { exchanger, settings }: UnitBasis,
  input: { readings: ReadingColumns; evidence: { from: number; to: number }; nominal: number },
): CleanFactors | null {
  const { readings, evidence, nominal } = input;
  // The last reading of the evidence counts: a period ends before its end.
  const period = { from: evidence.from, to: evidence.to + 1 };
  const learned = learnFactors({ method, exchanger, settings, test: null, readings, nominal, ...period });
  return learned.factors ?? learned.films?.factors ?? null;
}

import type { AnalysedUnit, CleaningRecord, SiteRecord } from '../records';
import { type UnitSummary, unitSummary } from './unit-summary';

/** A unit as lists of the whole fleet know it: what was entered of it, and the summary of its results. */
export type FleetUnit = {
  id: number;
  tag: string;
  service: string;
  site: SiteRecord;
  /** The limit of the fouling resistance that its datasheet states [m²·K/W]; null without one. */
  statedAllowance: number | null;
  /** Null before the first analysis. */
  summary: UnitSummary | null;
  /** Recorded cleanings that the period of a page can show, oldest first. */
  cleanings: Pick<CleaningRecord, 'at' | 'method'>[];
};

/** The same of a unit whose whole results are at hand. */
export function fleetUnit({ record, trend, result, daily, cleanings }: AnalysedUnit): FleetUnit {
  return {
    id: record.id,
    tag: record.tag,
    service: record.unit.service ?? '',
    site: record.site,
    statedAllowance: statedAllowance(record),
    summary: trend === null ? null : unitSummary({ trend, result, daily }),
    cleanings,
  };
}

/** The limit of the fouling resistance that a datasheet states [m²·K/W]. */
export function statedAllowance({ exchanger }: Pick<AnalysedUnit['record'], 'exchanger'>): number | null {
  return exchanger.limits.find((limit) => limit.kind === 'fouling-resistance')?.value ?? null;
}

/** Fouling resistance of the limit reached first, or of the fouling-resistance limit where none governs [m²·K/W]. */
export function allowanceOf({ trend, record }: Pick<AnalysedUnit, 'trend' | 'record'>): number | null {
  const governing =
    trend === null || trend.governing === null ? null : trend.limits[trend.governing]!.foulingResistance;
  return governingOr(governing, statedAllowance(record));
}

/** The same from what lists know. */
export function fleetAllowance({ summary, statedAllowance: stated }: FleetUnit): number | null {
  return governingOr(summary?.limit?.foulingResistance ?? null, stated);
}

function governingOr(governing: number | null, stated: number | null): number | null {
  return governing !== null && governing > 0 ? governing : stated;
}

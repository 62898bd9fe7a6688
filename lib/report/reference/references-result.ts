import type { CleanReferencePreview, CleanReferences } from '@/lib/contract/clean-references';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { ProposedReference, UnitRecords } from '@/lib/report/records';
import { governingLimit } from '@/lib/report/unit/fouling-chart';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { doubtsInWords, refusalInWords } from './learning-words';

/** The references of a unit as the API gives them. */
export function cleanReferences({ record, bases, references }: UnitRecords): CleanReferences {
  const iso = (at: number) => isoInZone(at, record.site.timeZone);
  return {
    tag: record.tag,
    inForce: bases.map(({ from, unitVersion, reference, cleanFactors }, index) => ({
      from: index === 0 ? null : iso(from),
      unitVersion,
      reference,
      factors: cleanFactors,
    })),
    references: references.map(({ from, evidence, acceptedAt, ...rest }) => ({
      ...rest,
      from: from === null ? null : iso(from),
      evidence: evidence === null ? null : { ...evidence, from: iso(evidence.from), to: iso(evidence.to) },
      acceptedAt: iso(acceptedAt),
    })),
  };
}

/** A reference worked out but not accepted, as the API gives it. */
export function cleanReferencePreview(proposed: ProposedReference, timeZone: string): CleanReferencePreview {
  const { method, period, from, unitVersion, learned, effect } = proposed;
  const iso = (at: number) => isoInZone(at, timeZone);
  const { factors, uncertainty, evidence, refusal, films, scale } = learned;
  return {
    method,
    learnFrom: period === null ? null : { from: iso(period.from), to: iso(period.to) },
    from: from === null ? null : iso(from),
    unitVersion,
    factors,
    uncertainty,
    readings: evidence?.readings ?? null,
    refusal: refusal === null ? null : refusalInWords(refusal),
    oneScale:
      scale === null
        ? null
        : { factor: scale.scale, uncertainty: scale.uncertainty, scatter: films?.scatterOfOneScale ?? null },
    twoFilms:
      films === null
        ? null
        : {
            factors: films.factors,
            uncertainty: films.uncertainty,
            scatter: films.scatter,
            correlation: finiteOrNull(films.correlation),
            condition: finiteOrNull(films.condition),
            gain: finiteOrNull(films.gain),
            doubts: doubtsInWords(learned),
          },
    effect: effect === null ? null : { before: todayOf(effect.before), after: todayOf(effect.after) },
  };
}

function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

function todayOf(trend: UnitTrend) {
  const limit = governingLimit(trend);
  const day = limit?.crossedDay ?? limit?.p50Day ?? null;
  return {
    foulingResistance: trend.foulingResistance,
    allowanceUsed: trend.allowanceUsed,
    cleanBy: day === null ? null : isoDay(day),
  };
}

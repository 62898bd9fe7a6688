import { AppError } from '@/lib/contract/app-error';
import type { CleanReferenceRecord, ReferenceProposal } from '@/lib/contract/clean-references';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { type LearnedFactors, learnFactors } from '@/lib/core/clean/learn-factors';
import { LEARNING_DAYS } from '@/lib/core/clean/learn-scale';
import { basisAt } from '@/lib/core/fouling/evaluate-over';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { ProposedReference } from '@/lib/report/records';
import { listCleanings } from '@/lib/store/entities/events';
import { explainedFalls, listFallAnswers } from '@/lib/store/entities/fall-answers';
import { listReferences } from '@/lib/store/entities/references';
import { findResult } from '@/lib/store/entities/results';
import { findUnit, listVersions, type StoredUnit, type StoredVersion } from '@/lib/store/entities/units';
import { listVerdicts, standing } from '@/lib/store/entities/verdicts';
import { DAY_MS } from '@/lib/time/calendar-day';
import { holding } from './automatic-reference';
import { statedTest } from './clean-test';
import type { Context } from './context';
import { datasheetBases, planBases, toBases } from './unit-bases';
import { dailyOf, trendOf } from './unit-trend';

/**
 * Works out what a clean reference would be, and what it would change. Nothing is stored.
 *
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' for a time that cannot be
 */
export async function proposeReference(
  context: Context,
  tag: string,
  proposal: ReferenceProposal,
): Promise<ProposedReference> {
  const { entities } = context.store;
  const stored = await findUnit(entities, tag);
  if (stored === null) throw new AppError('not-found', `There is no unit "${tag}"`);
  const [versions, events] = await Promise.all([
    listVersions(entities, stored.id),
    listCleanings(entities, stored.id),
  ]);
  const cleanings = events.map(({ at }) => at);
  const period = await periodOf(context, stored, { proposal, cleanings });
  const from = holdsFrom(proposal, period, cleanings);
  if (from !== null && from > context.now()) {
    throw new AppError('invalid-input', 'The reference would hold from a time that lies in the future', [
      { field: 'from', message: 'state a time that has passed, or null for the beginning of the record' },
    ]);
  }
  const { learned, unitVersion } = await learn(context, stored, { proposal, versions, period });
  const { factors } = learned;
  const effect =
    factors === null
      ? null
      : await effectOf(context, stored, {
          versions,
          cleanings,
          reference: { from, method: proposal.method, factors },
        });
  return { method: proposal.method, period, from, unitVersion, learned, effect };
}

type Period = { from: number; to: number };

/** The period asked for, else the days after the last cleaning, or the first days of the record; null without readings. */
async function periodOf(
  context: Context,
  stored: StoredUnit,
  { proposal, cleanings }: { proposal: ReferenceProposal; cleanings: number[] },
): Promise<Period | null> {
  const { method, learnFrom } = proposal;
  if (method === 'datasheet' || method === 'test') return null;
  if (learnFrom) return { from: Date.parse(learnFrom.from), to: Date.parse(learnFrom.to) };
  const span = await context.store.series.readingSpan(stored.id);
  return span === null ? null : usualPeriod(span, cleanings);
}

/** The days after the last cleaning that readings follow, else the first days of the record. */
export function usualPeriod(
  { first, last }: { first: number; last: number },
  cleanings: readonly number[],
): Period {
  const from = Math.max(first, cleanings.findLast((at) => at < last) ?? first);
  return { from, to: from + LEARNING_DAYS * DAY_MS };
}

/** As asked; else the cleaning before the period, or the beginning of the record. */
function holdsFrom(
  { from }: ReferenceProposal,
  period: Period | null,
  cleanings: readonly number[],
): number | null {
  if (from !== undefined) return from === null ? null : Date.parse(from);
  if (period === null) return null;
  return cleanings.findLast((at) => at <= period.from) ?? null;
}

async function learn(
  context: Context,
  stored: StoredUnit,
  input: { proposal: ReferenceProposal; versions: StoredVersion[]; period: Period | null },
): Promise<{ learned: LearnedFactors; unitVersion: number }> {
  const { series } = context.store;
  const { proposal, versions, period } = input;
  const bases = datasheetBases(versions);
  const { from, to } = period ?? { from: context.now(), to: context.now() };
  const basis = basisAt(bases, from);
  const change = bases.find((other) => other.from > from && other.from < to);
  if (change !== undefined) {
    throw new AppError('invalid-input', 'The equipment was changed within the period to learn from', [
      {
        field: 'learnFrom',
        message: `end it before datasheet version ${change.unitVersion}, or begin after it`,
      },
    ]);
  }
  const [readings, nominal] = await Promise.all([
    series.readReadings(stored.id, from - CHECK_REACH_MS, to + CHECK_REACH_MS),
    series.nominalSensors(stored.id, Number.MAX_SAFE_INTEGER),
  ]);
  const { exchanger, settings, unitVersion } = basis;
  const test = statedTest(versions.find(({ number }) => number === unitVersion)!.unit);
  const { method } = proposal;
  return {
    learned: learnFactors({ method, exchanger, settings, test, readings, from, to, nominal }),
    unitVersion,
  };
}

/** What the unit's trend would be with a further reference, beside what it is. */
async function effectOf(
  context: Context,
  stored: StoredUnit,
  input: {
    versions: StoredVersion[];
    cleanings: number[];
    reference: Pick<CleanReferenceRecord, 'from' | 'method' | 'factors'>;
  },
): Promise<{ before: UnitTrend; after: UnitTrend; asOf: number } | null> {
  const { entities, series } = context.store;
  const [known, references, verdicts, answers] = await Promise.all([
    findResult(entities, stored.id),
    listReferences(entities, stored.id),
    listVerdicts(entities, stored.id),
    listFallAnswers(entities, stored.id),
  ]);
  if (known === null || known.asOf === null) return null;
  const { asOf, nominal, trend } = known;
  const number = Math.max(0, ...references.map((reference) => reference.number)) + 1;
  const further = { ...input.reference, number };
  const plan = planBases(input.versions, [...holding(references, stored), further]);
  const cleanings = input.cleanings.filter((at) => at <= asOf);
  const inputs = { bases: toBases(plan, input.versions), cleanings, nominal, judged: standing(verdicts) };
  const daily = dailyOf(stored, await series.readReadings(stored.id, 0, asOf + 1), inputs);
  const after = trendOf(stored, daily, { ...inputs, explainedFalls: explainedFalls(answers), asOf });
  return { before: trend, after, asOf };
}

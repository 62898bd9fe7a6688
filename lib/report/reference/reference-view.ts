import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { REFERENCE_METHODS, type ReferenceMethod } from '@/lib/contract/clean-references';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import type { ReferenceRecords } from '@/lib/report/records';
import { unitPath } from '@/lib/report/unit/unit-address';
import { localDay } from '@/lib/time/local-clock';
import { localDateTime } from '@/lib/time/local-instant';
import { basisInWords } from './basis-words';
import { factorsInWords, METHOD_WORDS } from './factor-words';
import { type ProposalView, proposalView } from './proposal-view';
import { HOLDS, type Holds, type ReferenceEntries, referencePath } from './reference-entries';
import { type SensitivityView, sensitivityView } from './sensitivity-view';

/** The page of the clean reference, as plain data. */
export type ReferenceView = {
  tag: string;
  unitHref: string;
  timeZone: string;
  inForce: { since: string; datasheet: string; reference: string; factors: string }[];
  /** What ought to be looked at again; empty where nothing. */
  warnings: string[];
  history: HistoryRow[];
  form: ReferenceForm;
  proposal: ProposalView | null;
  sensitivity: SensitivityView | null;
};

export type HistoryRow = {
  number: number;
  method: string;
  factors: string;
  since: string;
  learnedFrom: string;
  acceptedBy: string;
  acceptedOn: string;
  reason: string;
  isInForce: boolean;
};

export type ReferenceForm = {
  action: string;
  methods: { value: ReferenceMethod; label: string; hint: string; isChosen: boolean }[];
  from: { value: string; error: string | null };
  to: { value: string; error: string | null };
  holds: { value: Holds; label: string; isChosen: boolean }[];
  holdsAt: { value: string; error: string | null };
  entries: ReferenceEntries;
  /** What could not be worked out and belongs to no field above. */
  problems: string[];
  /** Number of the newest reference seen; 0 without any. */
  after: number;
};

const METHOD_HINTS: Record<ReferenceMethod, string> = {
  datasheet: 'The films and the wall as stated, nothing learned.',
  test: 'The clean test that the datasheet states gives one factor on the whole clean resistance.',
  scale: 'The median of U on the datasheet to U measured, over accepted readings of a clean period.',
  'two-films':
    'A factor for each film by least squares, the wall as stated. Needs flows that varied on their own.',
};

const HOLDS_WORDS: Record<Holds, string> = {
  cleaning: 'from the cleaning before that period, else from the beginning',
  beginning: 'from the beginning of the record',
  at: 'from another time',
};

export function referenceView(records: ReferenceRecords, system: UnitSystem): ReferenceView {
  const { record, references, bases } = records;
  const { timeZone } = record.site;
  const held = new Set(bases.map(({ reference }) => reference));
  return {
    tag: record.tag,
    unitHref: unitPath(record.tag),
    timeZone,
    inForce: bases.map((basis, index) => {
      const [datasheet, reference] = basisInWords(basis, records, timeZone);
      return {
        since: index === 0 ? 'the beginning' : formatInstant(basis.from, timeZone),
        datasheet: datasheet!,
        reference: reference!,
        factors: factorsInWords(basis.cleanFactors, { hot: null, cold: null }),
      };
    }),
    warnings: warningsOf(records),
    history: references
      .map((reference) => historyRow(reference, timeZone, held.has(reference.number)))
      .reverse(),
    form: formOf(records),
    proposal: records.proposed === null ? null : proposalView(records.proposed, { timeZone, system }),
    sensitivity: records.sensitivity === null ? null : sensitivityView(records.sensitivity, system),
  };
}

/** A reference multiplies the clean resistances of one version of the datasheet, and should be looked at with another. */
function warningsOf({ bases, references }: ReferenceRecords): string[] {
  const older = bases.flatMap(({ reference, unitVersion }) => {
    const held = references.find(({ number }) => number === reference);
    return held === undefined || held.unitVersion === unitVersion
      ? []
      : [
          `Clean reference ${held.number} was learned with datasheet version ${held.unitVersion}; where it holds now, version ${unitVersion} stands. Look whether it still fits, and accept another if it does not.`,
        ];
  });
  return [...new Set(older)];
}

function historyRow(reference: CleanReferenceRecord, timeZone: string, isInForce: boolean): HistoryRow {
  const { number, method, factors, uncertainty, from, evidence } = reference;
  const day = (at: number) => formatDay(localDay(at, timeZone));
  return {
    number,
    method: METHOD_WORDS[method],
    factors: factorsInWords(factors, uncertainty),
    since: from === null ? 'the beginning' : formatInstant(from, timeZone),
    learnedFrom:
      evidence === null
        ? '–'
        : `${countOf(evidence.readings, 'reading')}, ${day(evidence.from)} to ${day(evidence.to)}`,
    acceptedBy: reference.acceptedBy,
    acceptedOn: day(reference.acceptedAt),
    reason: reference.reason,
    isInForce,
  };
}

function formOf(records: ReferenceRecords): ReferenceForm {
  const { record, entries, faults, usualPeriod, proposed, references } = records;
  const { timeZone } = record.site;
  const period = proposed?.period ?? usualPeriod;
  const typed = (text: string, at: number | undefined) =>
    text !== '' || at === undefined ? text : localDateTime(at, timeZone);
  const errorOf = (field: string) => faults.find((fault) => fault.field === field)?.message ?? null;
  const placed = ['from', 'to', 'holdsAt'];
  return {
    action: referencePath(record.tag),
    methods: REFERENCE_METHODS.map((value) => ({
      value,
      label: METHOD_WORDS[value],
      hint: METHOD_HINTS[value],
      isChosen: value === (entries.method ?? 'scale'),
    })),
    from: { value: typed(entries.from, period?.from), error: errorOf('from') },
    to: { value: typed(entries.to, period?.to), error: errorOf('to') },
    holds: HOLDS.map((value) => ({ value, label: HOLDS_WORDS[value], isChosen: value === entries.holds })),
    holdsAt: { value: entries.holdsAt, error: errorOf('holdsAt') },
    entries,
    problems: faults.filter(({ field }) => !placed.includes(field)).map(({ message }) => message),
    after: references.at(-1)?.number ?? 0,
  };
}

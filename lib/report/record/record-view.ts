import { formatDay } from '@/lib/report/format/time';
import type { FleetRecords } from '@/lib/report/records';
import { fleetStaleness } from '@/lib/report/staleness';
import { unitPath } from '@/lib/report/unit/unit-address';
import { localDay } from '@/lib/time/local-clock';
import { type ErrorPicture, errorPicture } from './error-picture';
import { type MissRow, missRow } from './miss-row';
import { madeAt, type PastProjection, pastProjections, worstMisses } from './past-projections';
import { LIVES, type RecordAddress, recordHref } from './record-address';
import { AIM, recordSummary, summariesBy } from './record-summary';
import { LIFE_WORDS, recordInWords } from './record-words';
import { type SummaryRow, summaryRow } from './summary-row';
import { wideningGroups } from './widening-groups';
import { factorText, wideningInWords } from './widening-words';

export type Choice = { label: string; href: string; isCurrent: boolean };

/** Everything the page of past projections shows. */
export type RecordView = {
  today: string;
  /** False where no cycle has told yet. */
  hasAny: boolean;
  units: number;
  sentence: { main: string; detail: string };
  staleness: string[];
  /** The share of life that words and lists are of, and links to the others. */
  life: string;
  lives: Choice[];
  scales: Choice[];
  picture: ErrorPicture;
  scale: RecordAddress['scale'];
  aim: number;
  /** In the order of the picture's rows. */
  byLife: SummaryRow[];
  bySite: SummaryRow[];
  byService: SummaryRow[];
  widening: { from: string; sentence: string; units: { tag: string; href: string; factor: string }[] }[];
  misses: { rows: MissRow[]; count: number };
};

/** Misses listed; the file has all. */
const MOST_MISSES = 12;
const SCALE_WORDS = { days: 'in days', share: 'as share of the time left' } as const;

/** How past projections of the fleet did. */
export function recordView(records: FleetRecords, address: RecordAddress): RecordView {
  const projections = pastProjections(records.units);
  const rows = LIVES.map((life) => madeAt(projections, life));
  const own = madeAt(projections, address.life);
  const misses = worstMisses(own);
  return {
    today: formatDay(localDay(records.now, records.sites[0]?.timeZone ?? 'UTC')),
    hasAny: projections.length > 0,
    units: records.units.length,
    sentence: recordInWords(recordSummary(own), address.life),
    staleness: fleetStaleness(records),
    life: LIFE_WORDS[address.life],
    ...choices(address),
    picture: errorPicture(rows, address.scale),
    scale: address.scale,
    aim: AIM,
    byLife: LIVES.map((life, index) => summaryRow(capital(LIFE_WORDS[life]), recordSummary(rows[index]!))),
    bySite: groupRows(own, ({ site }) => site),
    byService: groupRows(own, ({ service }) => service),
    widening: wideningGroups(records.units).map((group) => ({
      from: group.from,
      sentence: wideningInWords(group),
      // The fleet's factor is the same for all of them: only units with a factor of their own are named.
      units: group.from === 'unit' ? group.units.map(widenedUnit) : [],
    })),
    misses: {
      rows: misses.slice(0, MOST_MISSES).map((miss) => missRow(miss, address.units)),
      count: misses.length,
    },
  };
}

function choices(address: RecordAddress): Pick<RecordView, 'lives' | 'scales'> {
  return {
    lives: LIVES.map((life) => ({
      label: LIFE_WORDS[life],
      href: recordHref(address, { life }),
      isCurrent: life === address.life,
    })),
    scales: (['days', 'share'] as const).map((scale) => ({
      label: SCALE_WORDS[scale],
      href: recordHref(address, { scale }),
      isCurrent: scale === address.scale,
    })),
  };
}

function groupRows(
  projections: PastProjection[],
  nameOf: (projection: PastProjection) => string,
): SummaryRow[] {
  return summariesBy(projections, nameOf).map(({ name, summary }) =>
    summaryRow(name === '' ? 'no service stated' : name, summary),
  );
}

function widenedUnit({ tag, factor }: { tag: string; factor: number }) {
  return { tag, href: unitPath(tag), factor: factorText(factor) };
}

function capital(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

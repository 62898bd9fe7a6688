import type { Fault } from '@/lib/contract/app-error';
import { REASON_BIT, reasonsOf } from '@/lib/core/checks/reasons';
import { FLOW_SENSORS, PRESSURE_DROP_SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { basisInWords } from '@/lib/report/reference/basis-words';
import { unitOptions } from '@/lib/report/setup/unit-choices';
import { installedView } from '@/lib/report/unit/installed-sensors';
import { unitPath } from '@/lib/report/unit/unit-address';
import { type WorkedReading, workedReading } from '@/lib/report/worked/worked-reading';
import { localDateTime } from '@/lib/time/local-instant';
import { type AgainstTrend, againstTrend } from './against-trend';
import { entriesOfReading } from './last-reading';
import { type PressureDropRow, pressureDropRows } from './pressure-drop-rows';
import { type SpotCheckReason, spotCheckReason } from './spot-check-advice';
import {
  type INSTRUMENTS,
  type SpotCheckEntries,
  spotCheckHref,
  spotCheckPath,
  unitName,
} from './spot-check-entries';
import {
  type CheckedAllowance,
  type CheckedFigure,
  checkedAllowance,
  checkedFigures,
} from './spot-check-figures';
import type { CheckedReading, SpotCheckRecords } from './spot-check-records';

/** A quantity the page asks for: number and unit of measure, with the names under which the address holds them. */
export type EntryField = {
  name: string;
  unitName: string;
  label: string;
  hint: string | null;
  value: string;
  unit: string;
  options: { value: string; label: string }[];
  error: string | null;
};

/** Everything the spot-check page shows, as plain data. */
export type SpotCheckView = {
  tag: string;
  service: string | null;
  site: string;
  unitHref: string;
  form: SpotCheckForm;
  /** Link that fills in the newest accepted reading, and its time; null where none is known. */
  last: { href: string; time: string } | null;
  result: SpotCheckResult | null;
};

export type SpotCheckForm = {
  action: string;
  sides: { title: string; fields: EntryField[] }[];
  instruments: EntryField[];
  at: { value: string; error: string | null; timeZone: string };
  by: string;
  note: string;
  faults: number;
  /** The unit system the address asks for, which the form keeps; blank: none. */
  units: string;
};

export type SpotCheckResult = WorkedReading & {
  time: string;
  /** Empty when the reading is accepted. */
  reasons: SpotCheckReason[];
  /** What is to be known before believing it: values inferred, the clean reference. */
  remarks: string[];
  instruments: string[];
  figures: CheckedFigure[];
  allowance: CheckedAllowance | null;
  againstTrend: AgainstTrend | null;
  pressureDrops: PressureDropRow[];
};

export function spotCheckView(records: SpotCheckRecords, system: UnitSystem): SpotCheckView {
  const { record, entries, last, checked } = records;
  const { timeZone } = record.site;
  return {
    tag: record.tag,
    service: record.unit.service ?? null,
    site: record.site.name,
    unitHref: unitPath(record.tag),
    form: formOf(records),
    last:
      last === null
        ? null
        : {
            href: spotCheckHref(record.tag, entriesOfReading(last, entries, system)),
            time: formatInstant(last.time[0]!, timeZone),
          },
    result: checked === null ? null : resultOf(records, checked, system),
  };
}

function formOf({ record, entries, faults, clock }: SpotCheckRecords): SpotCheckForm {
  const { timeZone } = record.site;
  const field = (name: Sensor, label: string) => entryField(name, label, { entries, faults });
  return {
    action: spotCheckPath(record.tag),
    sides: [
      {
        title: 'Hot side',
        fields: [
          field('hotIn', 'Hot inlet'),
          field('hotOut', 'Hot outlet'),
          field('hotFlow', 'Hot flow'),
          field('hotPressureDrop', 'Hot pressure drop'),
        ],
      },
      {
        title: 'Cold side',
        fields: [
          field('coldIn', 'Cold inlet'),
          field('coldOut', 'Cold outlet'),
          field('coldFlow', 'Cold flow'),
          field('coldPressureDrop', 'Cold pressure drop'),
        ],
      },
    ],
    instruments: [
      entryField('temperatureUncertainty', 'Thermometer, ±', { entries, faults }),
      entryField('flowUncertainty', 'Flow meter, ± of reading', { entries, faults }),
    ],
    at: { value: entries.at || localDateTime(clock, timeZone), error: errorOf(faults, 'at'), timeZone },
    by: entries.by,
    note: entries.note,
    faults: faults.length,
    units: entries.units,
  };
}

function entryField(
  name: Sensor | (typeof INSTRUMENTS)[number],
  label: string,
  { entries, faults }: { entries: SpotCheckEntries; faults: Fault[] },
): EntryField {
  const { value, unit } = entries[name];
  return {
    name,
    unitName: unitName(name),
    label,
    hint: hintOf(name),
    value,
    unit,
    options: optionsOf(name, unit),
    error: errorOf(faults, name),
  };
}

function optionsOf(name: string, unit: string) {
  if (name === 'flowUncertainty') return [{ value: '%', label: '%' }];
  if (name === 'temperatureUncertainty') return unitOptions('temperatureDifference', unit);
  if (isOneOf(PRESSURE_DROP_SENSORS, name)) return unitOptions('pressure', unit);
  return unitOptions(isOneOf(FLOW_SENSORS, name) ? 'flow' : 'temperature', unit);
}

function hintOf(name: string): string | null {
  return isOneOf(PRESSURE_DROP_SENSORS, name) ? 'optional' : null;
}

function isOneOf(list: readonly string[], name: string): boolean {
  return list.includes(name);
}

function errorOf(faults: Fault[], name: string): string | null {
  const own = faults.filter(({ field }) => field === name).map(({ message }) => message);
  return own.length === 0 ? null : own.join('; ');
}

function resultOf(
  { record, trend, now }: SpotCheckRecords,
  checked: CheckedReading,
  system: UnitSystem,
): SpotCheckResult {
  const { evaluation, at } = checked;
  const { timeZone } = record.site;
  const foulingResistance = evaluation.foulingResistance[0]!;
  const uncertainty = evaluation.foulingResistanceUncertainty[0]!;
  const isRated = Number.isFinite(foulingResistance) && Number.isFinite(uncertainty);
  return {
    ...workedReading(checked, 0, system),
    time: formatInstant(at, timeZone),
    reasons: reasonsOf(evaluation.reasons[0]!).map((reason) => spotCheckReason(reason, checked)),
    remarks: [...installedRemarks(checked, system), basisRemark(checked)],
    instruments: instrumentsInWords(checked, system),
    figures: isRated ? checkedFigures(checked, system) : [],
    allowance: isRated ? checkedAllowance(checked, trend, system) : null,
    againstTrend: isRated
      ? againstTrend({ foulingResistance, uncertainty }, trend, { now, timeZone, system })
      : null,
    pressureDrops: pressureDropRows(checked, system),
  };
}

/** Which values were inferred or stand in, where that was enough. */
function installedRemarks(checked: CheckedReading, system: UnitSystem): string[] {
  if ((checked.evaluation.reasons[0]! & REASON_BIT.missing) !== 0) return [];
  return installedView(checked, system)?.lines ?? [];
}

function basisRemark(checked: CheckedReading): string {
  const [datasheet, reference] = basisInWords(checked.bases[0]!, checked, checked.record.site.timeZone);
  return `Judged by ${datasheet}. What counts as clean: ${reference}.`;
}

/** The standard uncertainties the check was made with, in words. */
function instrumentsInWords({ record, instruments }: CheckedReading, system: UnitSystem): string[] {
  const { temperature, flow } = instruments;
  const { sensors } = record.exchanger;
  const own = temperature ?? sensors.hotIn.absolute;
  const difference = formatFigureText(own, 'temperatureDifference', system, { digits: 2 });
  return [
    temperature === null
      ? `Temperatures: as the unit’s own sensors (hot inlet ± ${difference}).`
      : `Temperatures: hand instrument, ± ${difference}.`,
    flow === null
      ? 'Flows: as the unit’s own meters.'
      : `Flows: hand instrument, ± ${formatNumber(flow * 100, 1)} % of the reading.`,
  ];
}

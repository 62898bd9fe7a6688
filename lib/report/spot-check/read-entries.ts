import type { Fault } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { inSi } from '@/lib/contract/in-si';
import { type Reading, readingSchema } from '@/lib/contract/readings';
import { conversionToSi } from '@/lib/contract/ucum';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { DraftReader } from '@/lib/report/setup/draft-reader';
import { localInstant } from '@/lib/time/local-instant';
import type { SpotCheckEntries } from './spot-check-entries';

/** Standard uncertainties of hand instruments in SI; null: as the unit's own sensors. */
export type HandInstruments = {
  /** [K] */
  temperature: number | null;
  /** Share of the reading [-]. */
  flow: number | null;
};

/** The entries as a reading of the contract, or what cannot be read, field by field. */
export type ReadEntries = { reading: Reading; instruments: HandInstruments; at: number; faults: Fault[] };

/** Nothing larger is a person's thermometer [K] (own choice): a slip of the decimal point. */
const LARGEST_TEMPERATURE_UNCERTAINTY = 20;

export function readEntries(
  entries: SpotCheckEntries,
  { timeZone, now }: { timeZone: string; now: number },
): ReadEntries {
  const reader = new DraftReader();
  const at = readTime(reader, entries.at, { timeZone, now });
  const values = Object.fromEntries(
    SENSORS.map((sensor) => [sensor, reader.quantity(sensor, entries[sensor])]),
  );
  const instruments = {
    temperature: temperatureUncertainty(reader, entries),
    flow: reader.percent('flowUncertainty', entries.flowUncertainty.value) ?? null,
  };
  const parsed = readingSchema.safeParse({ time: new Date(at).toISOString(), ...values });
  const unreadable = parsed.success ? [] : faultsOf(parsed.error).map(onField);
  return {
    reading: parsed.success ? parsed.data : { time: new Date(at).toISOString() },
    instruments,
    at,
    faults: [...reader.faults, ...unreadable],
  };
}

function readTime(
  reader: DraftReader,
  typed: string,
  { timeZone, now }: { timeZone: string; now: number },
): number {
  if (typed.trim() === '') return now;
  const instant = localInstant(typed, timeZone);
  if (typeof instant === 'number') return instant;
  reader.fault(
    'at',
    instant === 'no-time'
      ? 'give day and time, such as 2026-05-04T08:00'
      : `this local time occurs twice or never in ${timeZone}; give one an hour away`,
  );
  return now;
}

function temperatureUncertainty(
  reader: DraftReader,
  { temperatureUncertainty: typed }: SpotCheckEntries,
): number | null {
  const field = 'temperatureUncertainty';
  const given = reader.quantity(field, typed);
  if (given === undefined) return null;
  if (conversionToSi(given.unit, 'temperatureDifference') === null) {
    reader.fault(field, `"${given.unit}" is no unit of temperature difference`);
    return null;
  }
  const uncertainty = inSi(given, 'temperatureDifference');
  if (uncertainty >= 0 && uncertainty <= LARGEST_TEMPERATURE_UNCERTAINTY) return uncertainty;
  reader.fault(field, `must be between 0 and ${LARGEST_TEMPERATURE_UNCERTAINTY} K`);
  return null;
}

/** The schema names `hotFlow.unit`; the page has one field for value and unit. */
function onField({ field, message }: Fault): Fault {
  return { field: field === 'time' ? 'at' : field.split('.')[0]!, message };
}

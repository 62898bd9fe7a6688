import type { MappingTask } from '@/lib/contract/column-guess';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { type DisplayKind, type DisplayUnit, displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import { isComplete, type MappingChoice } from './mapping-choices';

/** One sensor of a unit: the column that holds it, what it reads and what the design says. */
export type SensorCheck = {
  sensor: Sensor;
  words: string;
  column: string | null;
  reads: string;
  design: string;
  unit: string;
  /** In words, where the values do not suit the design or each other. */
  doubt: string | null;
};

type Task = Pick<MappingTask, 'columns' | 'designs' | 'conversions'>;
type Span = { low: number; middle: number; high: number };

/** Shares of the design's whole span beyond which a temperature is far off, and the factor for a flow. */
const FAR_SPAN = 0.6;
const FAR_FACTOR = 3;

/** The sensors of a unit as the choices have them, against its design point. */
export function unitCheck(
  tag: string,
  { choices, task, system }: { choices: readonly MappingChoice[]; task: Task; system: UnitSystem },
): SensorCheck[] {
  const design = task.designs.find((each) => each.tag === tag);
  const held = new Map(
    choices.flatMap((choice, place) =>
      isComplete(choice) && choice.tag.trim() === tag ? [[choice.sensor, { choice, place }] as const] : [],
    ),
  );
  const spans = new Map<Sensor, Span>();
  const checks = SENSORS.map((sensor): SensorCheck => {
    const found = held.get(sensor);
    const { kind, span } = spanOf(sensor, found, task);
    if (span !== null) spans.set(sensor, span);
    const shown = displayUnit(kind, system);
    const figure = designFigure(design, sensor, kind);
    return {
      sensor,
      words: SENSOR_WORDS[sensor],
      column: found?.choice.name ?? null,
      reads: span === null ? '' : `${figureText(span.low, shown)} to ${figureText(span.high, shown)}`,
      design: figure === null ? '' : figureText(figure, shown),
      unit: shown.label,
      doubt: span === null || figure === null ? null : farFrom(sensor, { span, figure, design: design! }),
    };
  });
  return checks.map((check) => ({ ...check, doubt: check.doubt ?? contradiction(check.sensor, spans) }));
}

/** What a column reads in SI; null where it has no numbers or its unit of measure is not known here. */
function spanOf(
  sensor: Sensor,
  found: { choice: MappingChoice; place: number } | undefined,
  { columns, conversions }: Task,
): { kind: DisplayKind; span: Span | null } {
  const usual = sensor.endsWith('Flow') ? 'massFlow' : sensor.endsWith('Drop') ? 'pressure' : 'temperature';
  if (found === undefined) return { kind: usual, span: null };
  const kinds = sensor.endsWith('Flow') ? ['massFlow', 'volumeFlow'] : [usual];
  const conversion = conversions.find(
    ({ unit, kind }) => unit === found.choice.unit.trim() && kinds.includes(kind),
  );
  const { low, middle, high } = columns[found.place]!;
  if (conversion === undefined || low === null || middle === null || high === null)
    return { kind: conversion?.kind ?? usual, span: null };
  const si = (value: number) => value * conversion.factor + conversion.offset;
  return { kind: conversion.kind, span: { low: si(low), middle: si(middle), high: si(high) } };
}

function designFigure(
  design: Task['designs'][number] | undefined,
  sensor: Sensor,
  kind: DisplayKind,
): number | null {
  if (design === undefined) return null;
  if (sensor.endsWith('Flow'))
    return design.flows[sensor]?.[kind === 'volumeFlow' ? 'volume' : 'mass'] ?? null;
  return design.temperatures[sensor] ?? null;
}

function farFrom(
  sensor: Sensor,
  { span, figure, design }: { span: Span; figure: number; design: Task['designs'][number] },
): string | null {
  if (sensor.endsWith('Flow')) {
    const ratio = span.middle / figure;
    return ratio > FAR_FACTOR || ratio < 1 / FAR_FACTOR
      ? 'far from the design: look at the unit of measure'
      : null;
  }
  const { hotIn = 0, coldIn = 0 } = design.temperatures;
  const isFar = Math.abs(span.middle - figure) > FAR_SPAN * Math.max(5, hotIn - coldIn);
  return isFar ? 'far from the design: look at column and unit of measure' : null;
}

/** Each sensor with the one that must read less, in words. */
const MUST_BE_WARMER: Partial<Record<Sensor, [cooler: Sensor, words: string]>> = {
  hotIn: ['hotOut', 'reads less than the hot outlet'],
  coldOut: ['coldIn', 'reads less than the cold inlet'],
  hotOut: ['coldIn', 'reads less than the cold inlet'],
};

function contradiction(sensor: Sensor, spans: ReadonlyMap<Sensor, Span>): string | null {
  const [cooler, words] = MUST_BE_WARMER[sensor] ?? [];
  const [warm, cool] = [spans.get(sensor), cooler === undefined ? undefined : spans.get(cooler)];
  if (warm === undefined || cool === undefined || warm.middle >= cool.middle) return null;
  return words ?? null;
}

function figureText(value: number, shown: DisplayUnit): string {
  const number = toDisplay(value, shown);
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(number) || 1)));
  return formatNumber(number, Math.min(3, digits));
}

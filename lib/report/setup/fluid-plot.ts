import type { FluidCurves } from '@/lib/contract/fluid-curves';
import { displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { formatNumber } from '@/lib/report/format/figure';
import { niceScale, type ValueScale } from '@/lib/report/format/nice-scale';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { DraftReader } from './draft-reader';
import { PROPERTY_KINDS, type PropertiesDraft, type PropertyKind } from './unit-draft';

/** A temperature and the property there, in the units they were typed in. */
export type PlotPoint = { temperature: number; value: number };

/** One property over temperature, as it was entered. */
export type FluidPlot = {
  kind: PropertyKind;
  title: string;
  unit: string;
  temperatureUnit: string;
  /** What was entered, ascending; none for a polynomial. */
  points: PlotPoint[];
  /** What is used between: straight lines through the points, or the polynomial. */
  line: PlotPoint[];
  across: ValueScale;
  up: ValueScale;
  /** The plot in a sentence. */
  summary: string;
  /** Why the property is not used as it stands; null where it is. */
  note: string | null;
};

export const PROPERTY_TITLES: Record<PropertyKind, string> = {
  specificHeat: 'Specific heat',
  density: 'Density',
  viscosity: 'Viscosity',
  conductivity: 'Conductivity',
};

/** Points of a polynomial's line: smooth at the size it is drawn in. */
const LINE_POINTS = 61;
/** Steps of the axes: the figures of the temperatures stand side by side. */
const STEPS_ACROSS = 3;
const STEPS_UP = 4;

/** Plots of what a custom fluid states over temperature; nothing for constants, or while there are fewer than two points. */
export function fluidPlots(properties: PropertiesDraft): FluidPlot[] {
  switch (properties.by) {
    case 'constants':
      return [];
    case 'table':
      return PROPERTY_KINDS.flatMap((kind) => tablePlot(properties, kind));
    case 'polynomial':
      return PROPERTY_KINDS.flatMap((kind) => polynomialPlot(properties, kind));
  }
}

function tablePlot({ table, units }: PropertiesDraft, kind: PropertyKind): FluidPlot[] {
  const points = table
    .flatMap((row) => {
      const [temperature, value] = [numberIn(row.temperature), numberIn(row[kind])];
      return temperature === null || value === null ? [] : [{ temperature, value }];
    })
    .sort((a, b) => a.temperature - b.temperature);
  if (points.length < 2) return [];
  const missing = table.length - points.length;
  // As the contract has it: a property stated in some rows only cannot be interpolated.
  const note = missing === 0 ? null : `Not used yet: ${missing} of ${table.length} rows lack it`;
  const temperatureUnit = ucumInWords(units.temperature);
  return [plotOf(kind, { points, line: points, unit: ucumInWords(units[kind]), temperatureUnit, note })];
}

function polynomialPlot({ polynomial }: PropertiesDraft, kind: PropertyKind): FluidPlot[] {
  const [from, to] = [inCelsius(polynomial.from), inCelsius(polynomial.to)];
  const coefficients = new DraftReader().numbers('', polynomial[kind].value);
  if (from === null || to === null || from >= to || coefficients === undefined) return [];
  const line = Array.from({ length: LINE_POINTS }, (_, i) => {
    const temperature = from + ((to - from) * i) / (LINE_POINTS - 1);
    return { temperature, value: coefficients.reduceRight((sum, c) => sum * temperature + c, 0) };
  });
  const unit = ucumInWords(polynomial[kind].unit);
  return [plotOf(kind, { points: [], line, unit, temperatureUnit: '°C', note: null })];
}

/** A fluid the product knows, as it is used: its name and range in words, and its properties. */
export type UsedFluid = { said: string; plots: FluidPlot[] };

/** The curves of a known fluid in the reader's units. */
export function usedFluid({ name, temperatures, properties }: FluidCurves, system: UnitSystem): UsedFluid {
  const degree = displayUnit('temperature', system);
  const shownTemperatures = temperatures.map((temperature) => toDisplay(temperature, degree));
  const plots = PROPERTY_KINDS.flatMap((kind) => {
    const shown = displayUnit(kind, system);
    const line = (properties[kind] ?? []).flatMap((value, i) =>
      value === null ? [] : [{ temperature: shownTemperatures[i]!, value: toDisplay(value, shown) }],
    );
    if (line.length < 2) return [];
    return [plotOf(kind, { points: [], line, unit: shown.label, temperatureUnit: degree.label, note: null })];
  });
  // Rounded inwards, so that the range named is one that works.
  const least = formatNumber(Math.ceil(shownTemperatures[0]! * 10) / 10, 1);
  const greatest = formatNumber(Math.floor(shownTemperatures.at(-1)! * 10) / 10, 1);
  return { said: `${name}, ${least} to ${greatest} ${degree.label}. Outside there is no number.`, plots };
}

type Drawn = Pick<FluidPlot, 'points' | 'line' | 'unit' | 'temperatureUnit' | 'note'>;

function plotOf(kind: PropertyKind, drawn: Drawn): FluidPlot {
  const { line, points, unit, temperatureUnit } = drawn;
  const [first, last] = [line[0]!, line.at(-1)!];
  const least = line.reduce((a, b) => (b.value < a.value ? b : a));
  const greatest = line.reduce((a, b) => (b.value > a.value ? b : a));
  const across = niceScale(first.temperature, last.temperature, STEPS_ACROSS);
  const up = niceScale(least.value, greatest.value, STEPS_UP);
  const degrees = (t: number) => formatNumber(t, Math.max(0, across.decimals));
  const value = (point: PlotPoint) =>
    `${formatNumber(point.value, up.decimals + 1)} at ${degrees(point.temperature)} ${temperatureUnit}`;
  const how = points.length === 0 ? 'a curve' : `${points.length} points`;
  return {
    kind,
    title: PROPERTY_TITLES[kind],
    ...drawn,
    across,
    up,
    summary:
      `${PROPERTY_TITLES[kind]} from ${degrees(first.temperature)} to ${degrees(last.temperature)} ${temperatureUnit}, ` +
      `${how}: least ${value(least)}, greatest ${value(greatest)}, in ${unit}.`,
  };
}

function numberIn(typed: string): number | null {
  return new DraftReader().number('', typed) ?? null;
}

/** Without the UCUM library, which a browser need not load for the three units that are offered. */
const TO_CELSIUS: Record<string, (value: number) => number> = {
  Cel: (value) => value,
  K: (value) => value - 273.15,
  '[degF]': (value) => (value - 32) / 1.8,
};

function inCelsius({ value, unit }: { value: string; unit: string }): number | null {
  const number = numberIn(value);
  return number === null ? null : (TO_CELSIUS[unit]?.(number) ?? null);
}

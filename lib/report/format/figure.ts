import { type DisplayKind, type DisplayUnit, displayUnit, toDisplay } from './display-unit';
import type { UnitSystem } from './unit-system';

/** A figure ready to be shown; `number` is `MISSING` where there is no answer. */
export type Figure = { number: string; uncertainty: string | null; unit: string };

export const MISSING = '–';

export type FigureOptions = {
  /** Standard uncertainty in the same SI unit: the digits follow it. */
  uncertainty?: number | null;
  /** Significant digits where no uncertainty is known; default 3. */
  digits?: number;
  /** Decimals, where a column must align; overrides both. */
  decimals?: number;
  /** Unit to use, so that a column or chart shares one. */
  shown?: DisplayUnit;
  /** Plus sign on positive figures. */
  signed?: boolean;
};

/** Significant digits without a known uncertainty: no instrument here is better than 0.1 %. */
const DEFAULT_DIGITS = 3;

/**
 * An SI value in the reader's unit, rounded to what its standard uncertainty allows (JCGM 100, 7.2.6: uncertainty to one or two
 * digits, value to the same place).
 */
export function formatFigure(
  value: number | null | undefined,
  kind: DisplayKind,
  system: UnitSystem,
  options: FigureOptions = {},
): Figure {
  const shown = options.shown ?? displayUnit(kind, system, value);
  if (value === null || value === undefined || !Number.isFinite(value)) {
    return { number: MISSING, uncertainty: null, unit: shown.label };
  }
  const size = toDisplay(value, shown);
  const spread = known(options.uncertainty) ? Math.abs(options.uncertainty / shown.factor) : null;
  const decimals =
    options.decimals ??
    (spread === null ? decimalsFor(size, options.digits ?? DEFAULT_DIGITS) : decimalsOf(spread));
  const sign = options.signed && size > 0 ? '+' : '';
  return {
    number: sign + formatNumber(size, decimals),
    uncertainty: spread === null ? null : formatNumber(spread, decimals),
    unit: shown.label,
  };
}

/** "12.5 ± 0.3 kW" in one string; % and ° stand after a thin space like any unit. */
export function figureText(figure: Figure): string {
  const spread = figure.uncertainty === null ? '' : ` ± ${figure.uncertainty}`;
  return figure.number === MISSING || figure.unit === ''
    ? `${figure.number}${spread}`
    : `${figure.number}${spread} ${figure.unit}`;
}

/** `formatFigure` and `figureText` in one go. */
export function formatFigureText(
  value: number | null | undefined,
  kind: DisplayKind,
  system: UnitSystem,
  options: FigureOptions = {},
): string {
  return figureText(formatFigure(value, kind, system, options));
}

/**
 * Decimals at which a standard uncertainty is rounded: two digits if it begins with 1 or 2, else one. Negative: tens, hundreds.
 */
export function decimalsOf(uncertainty: number): number {
  if (!(uncertainty > 0)) return DEFAULT_DIGITS;
  const exponent = Math.floor(Math.log10(uncertainty));
  const leading = uncertainty / 10 ** exponent;
  return (leading < 2.95 ? 1 : 0) - exponent;
}

function decimalsFor(value: number, digits: number): number {
  if (value === 0) return 0;
  return Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value))));
}

/** A number with a decimal point, commas between thousands and a true minus sign; the same on server and in browser. */
export function formatNumber(value: number, decimals: number): string {
  const places = Math.min(Math.max(decimals, 0), 12);
  const step = 10 ** Math.max(-decimals, 0);
  const rounded = Math.round(value / step) * step;
  const [whole = '0', fraction] = Math.abs(decimals < 0 ? rounded : value)
    .toFixed(places)
    .split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const text = fraction === undefined ? grouped : `${grouped}.${fraction}`;
  const isNegative = value < 0 && /[1-9]/.test(text);
  return isNegative ? `−${text}` : text;
}

/** Money per something or in total: no cents from 10 on; the currency as its ISO code or usual sign, on the same line. */
export function formatMoney(amount: number | null | undefined, currency: string): string {
  if (!known(amount)) return MISSING;
  const text = formatNumber(amount, Math.abs(amount) < 10 ? 2 : 0);
  return `${text}\u00a0${CURRENCY_SIGNS[currency] ?? currency}`;
}

const CURRENCY_SIGNS: Record<string, string> = { EUR: '€', USD: '$', GBP: '£', JPY: '¥', INR: '₹' };

/** The usual sign of a currency, or its code. */
export function currencySign(currency: string): string {
  return CURRENCY_SIGNS[currency] ?? currency;
}

function known(value: number | null | undefined): value is number {
  return value !== null && value !== undefined && Number.isFinite(value);
}

import type { DisplayKind } from '@/lib/report/format/display-unit';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/**
 * One line of a working: the formula in symbols, the same with this reading's figures, and what comes out.
 * Formulas are written in a small notation: `a_{b}`, `a^{b}`, `frac{a}{b}`, `sqrt{a}`.
 */
export type WorkedLine = { symbols: string; figures: string; result: string };

/** A step of the working, with an anchor that links jump to, and where there is one a page that says more. */
export type WorkedStep = {
  id: string;
  title: string;
  lines: WorkedLine[];
  notes: string[];
  more?: { href: string; label: string };
};

/** Digits of figures in between: enough to follow by hand [-]. */
const DIGITS_BETWEEN = 5;

/** Writes SI values in the reader's units. */
export type Writer = {
  /** A value with its unit. */
  text: (value: number, kind: DisplayKind, uncertainty?: number | null) => string;
  /** A dimensionless figure. */
  plain: (value: number) => string;
  /** A share in per cent, to a hundredth: no sensor is better. */
  percent: (value: number) => string;
};

export function writer(system: UnitSystem): Writer {
  return {
    text: (value, kind, uncertainty = null) =>
      formatFigureText(
        value,
        kind,
        system,
        uncertainty === null ? { digits: DIGITS_BETWEEN } : { uncertainty },
      ),
    plain: (value) => formatFigureText(value, 'number', system, { digits: DIGITS_BETWEEN }),
    percent: (value) => formatFigureText(value, 'fraction', system, { decimals: 2 }),
  };
}

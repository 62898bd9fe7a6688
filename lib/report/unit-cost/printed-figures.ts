import { type DisplayKind, displayUnit, fromDisplay, toDisplay } from '@/lib/report/format/display-unit';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/** A figure as it stands on the page, and the SI value of just that: what a reader works on with. */
export type Printed = { value: number; text: string };

/** Rounds SI values to what is printed of them, so that a line worked out from printed figures holds to its last digit. */
export type Printer = {
  print: (value: number, kind: DisplayKind) => Printed;
  /** Two figures with the decimals that still tell their difference. */
  printPair: (one: number, other: number, kind: DisplayKind) => [Printed, Printed];
};

/** Digits of every figure, and of the difference of two [-]. */
const DIGITS = 5;
/** Decimals that a small difference may add [-]: beyond them two figures are alike. */
const MOST_ADDED = 4;

export function printer(system: UnitSystem): Printer {
  const printTo = (value: number, kind: DisplayKind, decimals: number): Printed => {
    const shown = displayUnit(kind, system, value);
    const rounded = Number(toDisplay(value, shown).toFixed(decimals));
    return {
      value: fromDisplay(rounded, shown),
      text: formatFigureText(fromDisplay(rounded, shown), kind, system, { decimals, shown }),
    };
  };
  const own = (value: number, kind: DisplayKind) =>
    decimalsFor(toDisplay(value, displayUnit(kind, system, value)));
  return {
    print: (value, kind) => printTo(value, kind, own(value, kind)),
    printPair: (one, other, kind) => {
      const least = Math.max(own(one, kind), own(other, kind));
      const apart = (one - other) / displayUnit(kind, system, Math.max(one, other)).factor;
      const decimals =
        apart === 0 ? least : Math.min(Math.max(least, decimalsFor(apart)), least + MOST_ADDED);
      return [printTo(one, kind, decimals), printTo(other, kind, decimals)];
    },
  };
}

function decimalsFor(value: number): number {
  if (value === 0 || !Number.isFinite(value)) return 0;
  return Math.max(0, DIGITS - 1 - Math.floor(Math.log10(Math.abs(value))));
}

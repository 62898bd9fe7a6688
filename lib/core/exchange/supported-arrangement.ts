import type { Arrangement } from './exchanger';

/**
 * Why an arrangement cannot be evaluated, in words for a person; null when it can.
 *
 * @param arrangement passes are totals of the unit: two shells in series with four tube passes have two in each shell [-]
 * @returns the reason, or null for a supported arrangement
 * @range any
 * @source METHODS: the arrangements of Incropera et al., 6th ed. 2007, Table 11.3 and Kandlikar & Shah, J. Heat Transfer 111 (1989) 314
 * @check tests/core/exchange/supported-arrangement.test.ts
 */
export function isSupportedArrangement(arrangement: Arrangement): string | null {
  if (arrangement.kind === 'shell-and-tube')
    return shellReason(arrangement.shellPasses, arrangement.tubePasses);
  if (arrangement.kind === 'plate') return plateReason(arrangement.hotPasses, arrangement.coldPasses);
  return null;
}

/**
 * Throws for an arrangement that cannot be evaluated.
 *
 * @param arrangement [-]
 * @returns nothing; throws RangeError with the reason of `isSupportedArrangement`
 * @range any
 * @source see `isSupportedArrangement`
 * @check tests/core/exchange/supported-arrangement.test.ts
 */
export function assertSupportedArrangement(arrangement: Arrangement): void {
  if (arrangement === lastSupported) return;
  const reason = isSupportedArrangement(arrangement);
  if (reason !== null) throw new RangeError(reason);
  lastSupported = arrangement;
}

/** The readings of a unit come one after another, and each asks several times for the same arrangement. */
let lastSupported: Arrangement | null = null;

function shellReason(shells: number, tubes: number): string | null {
  if (!isCount(shells) || !isCount(tubes)) return 'shell and tube passes must be whole numbers of at least 1';
  // One tube pass in each shell is pure counter-current flow.
  if (tubes % shells === 0 && (tubes === shells || (tubes / shells) % 2 === 0)) return null;
  return `${tubes} tube passes in ${shells} shell passes are not supported: each shell must have one tube pass or an even number of them`;
}

function plateReason(hot: number, cold: number): string | null {
  if (!isCount(hot) || !isCount(cold)) return 'plate passes must be whole numbers of at least 1';
  const isOnePass = Math.min(hot, cold) === 1 && Math.max(hot, cold) <= 3;
  if (isOnePass || (hot === 2 && cold === 2)) return null;
  return `plate passes ${hot}-${cold} are not supported: use 1-1, 2-1, 1-2, 2-2, 3-1 or 1-3`;
}

function isCount(passes: number): boolean {
  return Number.isInteger(passes) && passes >= 1;
}

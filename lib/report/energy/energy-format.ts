import type { UncertainLoss } from '@/lib/contract/costs';
import {
  currencySign,
  decimalsOf,
  formatFigureText,
  formatMoney,
  formatNumber,
  MISSING,
} from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';

const KG_PER_TONNE = 1000;
const TONNE_DIGITS = 3;

/** Heat not transferred, with its standard uncertainty. */
export function heatText(
  loss: Pick<UncertainLoss, 'energyLost' | 'energyLostUncertainty'>,
  system: UnitSystem,
): string {
  return formatFigureText(loss.energyLost, 'energy', system, { uncertainty: loss.energyLostUncertainty });
}

export function energyText(energy: number | null, system: UnitSystem): string {
  return formatFigureText(energy, 'energy', system);
}

const PUMPING_DECIMALS = 2;

/** Extra work of pumps: small against the heat, so that all digits below a hundredth are noise. */
export function pumpingText(energy: number | null, system: UnitSystem): string {
  return formatFigureText(energy, 'energy', system, { decimals: PUMPING_DECIMALS });
}

/** "12,300 ± 400 €": as many digits as the uncertainty leaves. */
export function moneyText(money: number | null, uncertainty: number | null, currency: string): string {
  if (money === null || uncertainty === null || !(uncertainty > 0)) return formatMoney(money, currency);
  const decimals = Math.min(decimalsOf(uncertainty), Math.abs(money) < 10 ? 2 : 0);
  const spread = formatNumber(uncertainty, decimals);
  return `${formatNumber(money, decimals)} ± ${spread}\u00a0${currencySign(currency)}`;
}

/** CO2e in tonnes; in kilograms below one. */
export function carbonText(carbon: number | null): string {
  if (carbon === null) return MISSING;
  if (Math.abs(carbon) < KG_PER_TONNE) return `${formatNumber(carbon, 0)} kg`;
  const tonnes = carbon / KG_PER_TONNE;
  return `${formatNumber(tonnes, Math.max(0, TONNE_DIGITS - 1 - Math.floor(Math.log10(Math.abs(tonnes)))))} t`;
}

export function percentText(share: number): string {
  return `${formatNumber(100 * share, 0)} %`;
}

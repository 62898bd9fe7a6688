import type { Fluid, Vaporisation } from './fluid';
import { within } from './range';

/** How far beyond its saturation temperature a liquid must be known [K]: measured and reconciled values scatter about it. */
const MARGIN = 2;

/**
 * A liquid the user describes, with its change of phase: the vapour's enthalpy lies above the saturated liquid's by a
 * latent heat taken as the same at every temperature.
 *
 * @param liquid       the fluid by its liquid properties
 * @param vaporisation latent heat [J/kg] and saturation temperature [°C], null where the inlet sensor reads it; null for a
 *                     fluid that stays liquid
 * @returns the fluid, with `phaseChange` where there is one; units kept
 * @range  that of the liquid; RangeError naming the fluid for a latent heat that is not above 0 or a saturation temperature
 *         less than 2 K within that range
 * @source the user; definition of the latent heat
 * @check  tests/core/fluids/vaporising.test.ts
 */
export function vaporising(liquid: Fluid, vaporisation: Vaporisation | null): Fluid {
  if (vaporisation === null) return liquid;
  const { latentHeat, saturationTemperature } = vaporisation;
  if (!(latentHeat > 0 && latentHeat < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${liquid.name}: latent heat ${latentHeat} J/kg is not above 0`);
  }
  if (saturationTemperature !== null) requireMargin(liquid, saturationTemperature);
  const limited = within(liquid.minimum, liquid.maximum);
  return {
    ...liquid,
    phaseChange: {
      saturationTemperature,
      vapourEnthalpy: limited((t) => liquid.enthalpy(t) + latentHeat),
      liquidEnthalpy: liquid.enthalpy,
    },
  };
}

function requireMargin({ name, minimum, maximum }: Fluid, saturationTemperature: number): void {
  if (saturationTemperature - MARGIN >= minimum && saturationTemperature + MARGIN <= maximum) return;
  throw new RangeError(
    `${name}: the liquid properties are stated from ${minimum} to ${maximum} °C; they must reach ${MARGIN} K to either side of the saturation temperature, ${saturationTemperature} °C`,
  );
}

import type { Condensing, Fluid, Property } from './fluid';
import { enthalpyOf, makePropertyTable, type PropertyTable, tableProperty } from './property-table';

/**
 * The same fluid with each property as a piecewise cubic over a uniform grid: some 5 ns an evaluation instead of
 * microseconds. The enthalpy is the exact integral of the tabulated specific heat, so dh/dT = cp to rounding; that of
 * a condensing fluid, whose slope is not its specific heat, has its own table.
 *
 * @param fluid by formulas that are smooth over its whole range
 * @returns the fluid by tables; same name, range and nulls; units kept
 * @range  that of the fluid; relative error of each property below 1e-7 (of an enthalpy: of its change from the
 *         minimum; of a condensing fluid's enthalpies: of their greatest value)
 * @source see `makePropertyTable`
 * @check  tests/core/fluids/tabulate.test.ts
 */
export function tabulate(fluid: Fluid): Fluid {
  const table = (property: Property) => makePropertyTable(property, fluid.minimum, fluid.maximum);
  const orNull = (property: Property | null) => (property === null ? null : tableProperty(table(property)));
  const heat = table(fluid.specificHeat);
  const { condensing } = fluid;
  const enthalpy =
    condensing === null
      ? enthalpyOf(heat, fluid.enthalpy(fluid.minimum))
      : tableProperty(table(fluid.enthalpy));
  return {
    ...fluid,
    specificHeat: tableProperty(heat),
    enthalpy,
    density: orNull(fluid.density),
    viscosity: orNull(fluid.viscosity),
    conductivity: orNull(fluid.conductivity),
    condensing: condensing === null ? null : tabulateCondensing(condensing, enthalpy, table),
  };
}

/** The condensate's enthalpy is the liquid's on the saturation line, so that one table serves both. */
function tabulateCondensing(
  { saturationTemperature, vapourEnthalpy }: Condensing,
  liquidEnthalpy: Property,
  table: (property: Property) => PropertyTable,
): Condensing {
  return { saturationTemperature, vapourEnthalpy: tableProperty(table(vapourEnthalpy)), liquidEnthalpy };
}

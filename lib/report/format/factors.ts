/**
 * Exact factors from US customary units to SI.
 * Source: NIST Special Publication 811 (2008), appendix B; the pound, foot, gallon and IT Btu there are exact by definition.
 */

/** [kg] */
export const POUND = 0.453_592_37;
/** [m] */
export const FOOT = 0.3048;
/** [m³], US liquid gallon */
export const GALLON = 3.785_411_784e-3;
/** [J], International Table British thermal unit */
export const BTU = 1055.055_852_62;
/** [m/s²], standard acceleration of free fall */
const FREE_FALL = 9.806_65;
/** [m] */
const INCH = 0.0254;
/** [Pa] */
export const PSI = (POUND * FREE_FALL) / INCH ** 2;
/** [K], one degree Fahrenheit of difference */
export const FAHRENHEIT_DEGREE = 5 / 9;
/** [°C] at 0 °F */
export const FAHRENHEIT_ZERO = -160 / 9;
/** [s] */
export const MINUTE = 60;
export const HOUR = 3600;

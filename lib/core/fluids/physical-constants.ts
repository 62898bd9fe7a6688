/** 0 °C in kelvin (SI Brochure, definition of the degree Celsius). */
export const ZERO_CELSIUS = 273.15;

/** Standard atmosphere [Pa] (ISO 2533; reference pressure of IAPWS R13-08). */
export const STANDARD_ATMOSPHERE = 101_325;

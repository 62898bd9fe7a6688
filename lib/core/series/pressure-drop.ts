/** Exponent of pressure drop on mass flow [-]: turbulent flow in channels and tubes with friction ∝ Re^−0.2 (Blasius-like). */
export const PRESSURE_DROP_EXPONENT = 1.8;

/**
 * Pressure drop scaled to the reference flow: Δp·(ṁ_ref/ṁ)^m.
 *
 * @param pressureDrop as measured [Pa]
 * @param flowRatio    mass flow at that time over the reference flow [-], > 0
 * @param exponent     m [-], 1.8 unless learned
 * @returns [Pa]
 * @range  one flow regime
 * @source METHODS §6; friction factor ∝ Re^−0.2: McAdams, Heat Transmission, 3rd ed. 1954 (f = 0.184·Re^−0.2)
 * @check  tests/published/pressure.test.ts
 */
export function pressureDropAtReference(pressureDrop: number, flowRatio: number, exponent: number): number {
  return pressureDrop * flowRatio ** -exponent;
}

/** Efficiency of pump and motor together where none is stated [-]: common practice for centrifugal pumps. */
export const PUMP_EFFICIENCY = 0.7;

/**
 * Electric power that a pump takes to push a flow through a pressure drop: Δp·V̇/η with V̇ = ṁ/ρ.
 *
 * @param pressureDrop [Pa]
 * @param massFlow     [kg/s]
 * @param of           density of the stream [kg/m³] and efficiency of pump and motor together [-], both > 0
 * @returns [W]; negative for a negative pressure drop
 * @range  liquids, and gases whose density hardly changes across the unit
 * @source definition of hydraulic power and pump efficiency: Perry's Chemical Engineers' Handbook, 8th ed. 2008, sec. 10
 * @check  tests/core/cost/worked-example.test.ts
 */
export function pumpPower(
  pressureDrop: number,
  massFlow: number,
  of: { density: number; efficiency: number },
): number {
  return (pressureDrop * massFlow) / (of.density * of.efficiency);
}

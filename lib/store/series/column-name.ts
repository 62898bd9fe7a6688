/** The database's name for a column: `foulingResistance` → `fouling_resistance`. */
export function columnName(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

import { PROPERTY_COLUMNS, type PropertyColumn } from '@/lib/contract/property-rows';
import { kindInWords } from '@/lib/contract/quantity';
import { conversionToSi, SI_UNIT, ucumCode } from '@/lib/contract/ucum';

/** One column: what it holds, null where nothing known, and its unit, null where the header names none. */
export type HeaderColumn = { name: string; property: PropertyColumn | null; unit: string | null };

export type PropertyHeader = { columns: HeaderColumn[]; faults: string[] };

const NAMES: Record<PropertyColumn, RegExp> = {
  temperature: /^(t|temp\.?|temperature|θ|ϑ)$/i,
  specificHeat: /^(c_?p|(specific )?heat( capacity)?|specific heat( capacity)?)$/i,
  density: /^(density|rho|ρ)$/i,
  viscosity: /^((dynamic )?viscosity|mu|[µμη]|eta)$/i,
  conductivity: /^((thermal )?conductivity|k|λ|lambda)$/i,
};

/** `cp [kJ/(kg·K)]`, `Density (kg/m³)`, `T / °C`, `cp, kJ/kgK`. */
const NAME_AND_UNIT = /^(.*?)(?:\s*[[(](.+)[\])]|\s+\/\s+(.+)|,\s*(.+))?$/;

/** No head is longer; a pasted page must not be searched for one [characters]. */
const LONGEST_HEAD = 200;

/** Columns by the order in which they are asked for, where no header names them. */
export function columnsByOrder(count: number): HeaderColumn[] {
  return Array.from({ length: count }, (_, i) => ({
    name: `column ${i + 1}`,
    property: PROPERTY_COLUMNS[i] ?? null,
    unit: null,
  }));
}

/** What the cells of a header say; `unitCells` stand in a row of their own below it, or are empty. */
export function readPropertyHeader(cells: string[], unitCells: string[]): PropertyHeader {
  const parts = cells.map((cell, i) => {
    const [, name = '', ...units] = NAME_AND_UNIT.exec(cell.trim().slice(0, LONGEST_HEAD)) ?? [];
    return { name: name.trim(), unit: units.find(Boolean) ?? (unitCells[i]?.trim() || null) };
  });
  const isNamed = parts.some(({ name }) => propertyOf(name) !== null);
  const seen = new Set<PropertyColumn>();
  const faults: string[] = [];
  const columns = parts.map(({ name, unit }, i): HeaderColumn => {
    const property = isNamed ? propertyOf(name) : (PROPERTY_COLUMNS[i] ?? null);
    const called = name === '' ? `column ${i + 1}` : name;
    if (property === null || seen.has(property)) return { name: called, property: null, unit: null };
    seen.add(property);
    if (unit === null) return { name: called, property, unit: null };
    const code = codeOf(unit, property);
    if (code === null) {
      faults.push(
        `Header, ${called}: “${unit}” is no unit of ${kindInWords(property)}; write for example ${SI_UNIT[property]}`,
      );
    }
    return { name: called, property, unit: code };
  });
  return { columns, faults };
}

function propertyOf(name: string): PropertyColumn | null {
  return PROPERTY_COLUMNS.find((property) => NAMES[property].test(name)) ?? null;
}

/** The UCUM code of a unit as spreadsheets write it; `kJ/kg·K` is meant as kJ/(kg·K). */
function codeOf(written: string, property: PropertyColumn): string | null {
  const plain = written
    .trim()
    .replace(/[⋅×*]|\s+/g, '.')
    .replace(/[µμ](?=Pa)/g, 'u')
    .replace(/\^/g, '');
  const candidates = [plain, plain.replace(/^([^/()]+)\/([^/()]+[.·][^/()]+)$/, '$1/($2)')];
  const known = candidates.find((candidate) => conversionToSi(candidate, property) !== null);
  return known === undefined ? null : ucumCode(known, property);
}

/** The columns a table of fluid properties may have; temperature and specific heat must be there. */
export const PROPERTY_COLUMNS = [
  'temperature',
  'specificHeat',
  'density',
  'viscosity',
  'conductivity',
] as const;
export type PropertyColumn = (typeof PROPERTY_COLUMNS)[number];

/** A table of fluid properties as it was pasted: numbers as a form holds them, '' where a cell is empty. */
export type PropertyRows = {
  rows: Record<PropertyColumn, string>[];
  /** UCUM codes that the header names; a column without one has the unit that the form shows. */
  units: Partial<Record<PropertyColumn, string>>;
  /** Columns that were left out, as the header calls them. */
  skipped: string[];
  /** What cannot be read, each naming row and column. Where there is any, nothing should be taken over. */
  faults: string[];
};

/** Which units of measure a reader sees; everything is kept in SI. */
export const UNIT_SYSTEMS = ['si', 'us'] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

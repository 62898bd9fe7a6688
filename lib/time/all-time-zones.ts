/** Every time zone this machine knows by name, UTC first. */
export function allTimeZones(): string[] {
  return ['UTC', ...Intl.supportedValuesOf('timeZone').filter((zone) => zone !== 'UTC')];
}

/** A name as compared: `Hot in`, `hot_in`, `hot-in` and `hotIn` are one column. */
export function plainName(name: string): string {
  return name.toLowerCase().replace(/[\s_-]/g, '');
}

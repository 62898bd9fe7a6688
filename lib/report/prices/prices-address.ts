/** What a reader may ask the form of a dated price to start with. */
export type PricesAddress = { site: string | null; supply: string | null };

/** Reads the address; what is not there counts as not given. */
export function readPricesAddress(params: Record<string, string | string[] | undefined>): PricesAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  return { site: first('site'), supply: first('supply') };
}

/** Address of the form that adds a price, filled in for a supply. */
export function priceHref({ site, supply }: { site: string; supply: string }): string {
  return `/energy/prices?${new URLSearchParams({ site, supply })}#add`;
}

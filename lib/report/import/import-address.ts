/** What stands in the address of the import page. */
export type ImportAddress = {
  batch: number | null;
  /** Units the batch changed, as the import said; the address carries at most `MOST_IN_ADDRESS` of them. */
  changed: string[];
  changedCount: number;
  isAnalysed: boolean;
  undone: { batch: number; removed: number; restored: number } | null;
};

type SearchParams = Record<string, string | string[] | undefined>;

const MOST_IN_ADDRESS = 20;

/** Reads the address; what cannot be read counts as not given. */
export function readImportAddress(params: SearchParams): ImportAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  const count = (name: string) => (/^\d{1,15}$/.test(first(name) ?? '') ? Number(first(name)) : null);
  const changed = (first('changed') ?? '').split(',').filter((tag) => tag !== '');
  const undone = count('undone');
  return {
    batch: count('batch'),
    changed: changed.slice(0, MOST_IN_ADDRESS),
    changedCount: count('of') ?? changed.length,
    isAnalysed: first('analysed') !== '0',
    undone:
      undone === null
        ? null
        : { batch: undone, removed: count('removed') ?? 0, restored: count('restored') ?? 0 },
  };
}

/** Address of the report of an import just made. */
export function reportHref(report: { batch: number; units: string[]; isAnalysed: boolean }): string {
  const params = new URLSearchParams({ batch: String(report.batch) });
  if (report.units.length > 0) {
    params.set('changed', report.units.slice(0, MOST_IN_ADDRESS).join(','));
    params.set('of', String(report.units.length));
  }
  if (!report.isAnalysed) params.set('analysed', '0');
  return `/import?${params}`;
}

export function undoneHref(undone: { batch: number; removed: number; restored: number }): string {
  const { batch, removed, restored } = undone;
  return `/import?undone=${batch}&removed=${removed}&restored=${restored}`;
}

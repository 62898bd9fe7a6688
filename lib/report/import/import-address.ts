import type { StatusCells } from '@/lib/contract/import-report';

/** What stands in the address of the import page. */
export type ImportAddress = {
  batch: number | null;
  /** Units the batch changed, as the import said; the address carries at most `MOST_IN_ADDRESS` of them. */
  changed: string[];
  changedCount: number;
  isAnalysed: boolean;
  /** Cells that held a status word, as the import said; null where there were none. */
  statusCells: StatusCells | null;
  undone: { batch: number; removed: number; restored: number } | null;
};

type SearchParams = Record<string, string | string[] | undefined>;

const MOST_IN_ADDRESS = 20;
const MOST_WORDS = 6;

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
    statusCells: readStatus(count('status'), first('words') ?? ''),
    undone:
      undone === null
        ? null
        : { batch: undone, removed: count('removed') ?? 0, restored: count('restored') ?? 0 },
  };
}

/** `8 bad,4 no data` as the address carries it. */
function readStatus(total: number | null, words: string): StatusCells | null {
  if (total === null || total === 0) return null;
  const counted = words.split(',').flatMap((part) => {
    const [, count, word] = /^(\d{1,15}) (.{1,60})$/.exec(part) ?? [];
    return word === undefined ? [] : [[word, Number(count)] as const];
  });
  return { total, byWord: Object.fromEntries(counted) };
}

type Reported = { batch: number; units: string[]; isAnalysed: boolean; statusCells?: StatusCells };

/** Address of the report of an import just made. */
export function reportHref(report: Reported): string {
  const params = new URLSearchParams({ batch: String(report.batch) });
  if (report.units.length > 0) {
    params.set('changed', report.units.slice(0, MOST_IN_ADDRESS).join(','));
    params.set('of', String(report.units.length));
  }
  if (!report.isAnalysed) params.set('analysed', '0');
  if (report.statusCells !== undefined) {
    const words = Object.entries(report.statusCells.byWord).sort(([, a], [, b]) => b - a);
    params.set('status', String(report.statusCells.total));
    // A word may hold a comma, which keeps words apart here.
    const listed = words.slice(0, MOST_WORDS).map(([word, count]) => `${count} ${word.replaceAll(',', ' ')}`);
    params.set('words', listed.join(','));
  }
  return `/import?${params}`;
}

export function undoneHref(undone: { batch: number; removed: number; restored: number }): string {
  const { batch, removed, restored } = undone;
  return `/import?undone=${batch}&removed=${removed}&restored=${restored}`;
}

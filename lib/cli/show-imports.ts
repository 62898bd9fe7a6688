import { latestBatches } from '@/lib/work/import-batches';
import { type OutputOptions, print } from './output';
import { withContext } from './with-context';

const COLUMNS = [
  'import',
  'file',
  'time',
  'by',
  'rows read',
  'added',
  'replaced',
  'unchanged',
  'set aside',
  'undone',
  'undone by',
];

export async function showImports(options: OutputOptions): Promise<void> {
  const { imports } = await withContext(latestBatches);
  const time = (instant: number | null) => (instant === null ? null : new Date(instant).toISOString());
  const dated = imports.map((batch) => ({
    ...batch,
    createdAt: time(batch.createdAt),
    undoneAt: time(batch.undoneAt),
  }));
  const rows = dated.map((batch) => [
    batch.id,
    batch.source,
    batch.createdAt,
    batch.importedBy,
    batch.read,
    batch.added,
    batch.replaced,
    batch.unchanged,
    batch.setAside,
    batch.undoneAt,
    batch.undoneBy,
  ]);
  print(options, { document: { imports: dated }, table: { columns: COLUMNS, rows } });
}

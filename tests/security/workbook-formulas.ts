import { readDirectory, unpack } from '@/lib/ingest/xlsx/zip-archive.mjs';

/** Formulas in the sheets of a workbook: `f` elements (ECMA-376, 18.3.1.40). */
export function countFormulas(workbook: Buffer): number {
  const entries = readDirectory(workbook, { maxEntries: 1000 });
  const sheets = entries.filter(({ name }: { name: string }) => /^xl\/worksheets\/.*\.xml$/.test(name));
  if (sheets.length === 0) throw new Error('the workbook has no sheet');
  const texts = sheets.map((entry: (typeof entries)[number]) =>
    Buffer.from(unpack(workbook, entry)).toString('utf8'),
  );
  return texts.join('').match(/<f[\s>]/g)?.length ?? 0;
}

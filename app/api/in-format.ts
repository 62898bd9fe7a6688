/** A document as JSON, or with `format=csv` as a file to be saved. */
export function inFormat<Document>(
  request: Request,
  document: Document,
  { name, csv }: { name: string; csv: (document: Document) => string },
): Document | Response {
  if (new URL(request.url).searchParams.get('format') !== 'csv') return document;
  return csvFile(name, csv(document));
}

/** Rows as a file to be saved. */
export function csvFile(name: string, text: string): Response {
  return new Response(text, {
    headers: {
      'Cache-Control': 'no-store',
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': `attachment; filename="cleanby-${name}.csv"`,
    },
  });
}

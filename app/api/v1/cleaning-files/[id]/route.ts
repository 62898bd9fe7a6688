import { numberOf, respond } from '@/app/api/respond';
import { keptFileName } from '@/lib/contract/kept-file-name';
import { readCleaningFile } from '@/lib/work/keep-cleaning-file';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ id: string }> };

/** A kept file, to be saved and never to be run by the browser. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const id = numberOf((await params).id, 'file');
    const { name, type, content } = await readCleaningFile(context, id);
    return new Response(new Uint8Array(content), {
      headers: {
        'Cache-Control': 'private, no-store',
        'Content-Type': type,
        'Content-Disposition': disposition(keptFileName(name, type)),
        'Content-Security-Policy': "default-src 'none'; sandbox",
        'X-Content-Type-Options': 'nosniff',
      },
    });
  });
}

/** The name as ASCII for old clients, and in full (RFC 6266, RFC 8187). */
function disposition(name: string): string {
  const ascii = name.replace(/[^\x20-\x7e]|["\\%/]/g, '_');
  const full = encodeURIComponent(name).replace(
    /['()*]/g,
    (letter) => `%${letter.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `attachment; filename="${ascii}"; filename*=UTF-8''${full}`;
}

import { z } from 'zod';
import { readJson } from '@/app/api/body';
import { parse, readQuery, respond } from '@/app/api/respond';
import {
  deleteMappingQuerySchema,
  mappingNameSchema,
  saveMappingRequestSchema,
} from '@/lib/contract/saved-mapping';
import { deleteMapping, savedMapping, saveMapping } from '@/lib/work/saved-mappings';

export { PATCH, POST } from '@/app/api/other-methods';

type Segments = { params: Promise<{ name: string }> };

/** One saved mapping with its revision. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => savedMapping(context, nameOf(await params)));
}

/** Keeps a mapping by this name; `revision` says which one was edited, null that it is new. */
export function PUT(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const name = parse({ name: nameOf(await params) }, z.object({ name: mappingNameSchema })).name;
    return saveMapping(context, name, parse(await readJson(request), saveMappingRequestSchema));
  });
}

/** Deletes the revision that the address names. */
export function DELETE(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const { revision } = readQuery(request, deleteMappingQuerySchema);
    const name = nameOf(await params);
    await deleteMapping(context, name, revision);
    return { deleted: name };
  });
}

/** A name as a path segment holds it: people write blanks in names. */
function nameOf({ name }: { name: string }): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

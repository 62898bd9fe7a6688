import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as oneFile from '@/app/api/v1/cleaning-files/[id]/route';
import * as files from '@/app/api/v1/cleaning-files/route';
import * as fleet from '@/app/api/v1/fleet/route';
import * as imports from '@/app/api/v1/imports/route';
import * as units from '@/app/api/v1/units/route';
import { keptFileName } from '@/lib/contract/kept-file-name';
import { showCleanings } from '@/lib/work/read-cleanings';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, post, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const MEBIBYTE = 2 ** 20;
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

let database: TemporaryDatabase;
let cleaning: number;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E-1']));
  const at = Date.parse('2026-05-04T08:00:00Z');
  await recordCleaning(database.context, { tag: 'E-1', at });
  cleaning = (await showCleanings(database.context, 'E-1')).cleanings[0]!.id;
});
afterAll(() => database.remove());

describe('names of kept files', () => {
  it.each([
    ['../../etc/passwd.png', 'passwd.png'],
    ['C:\\plant\\photo.png', 'photo.png'],
    ['.htaccess.png', 'htaccess.png'],
    ['photo\u202egnp.exe', 'photognp.exe.png'],
    ['photo\r\nSet-Cookie: a=b.png', 'photoSet-Cookie: a=b.png'],
    ['photo\u0000.png', 'photo.png'],
    ['plates.html', 'plates.html.png'],
    ['plates.PNG', 'plates.PNG'],
    ['png', 'png.png'],
    ['..', 'file.png'],
    ['/', 'file.png'],
    ['Öl vor dem Spülen.png', 'Öl vor dem Spülen.png'],
  ])('%j is saved again as %j', (given, saved) => {
    expect(keptFileName(given, 'image/png')).toBe(saved);
    expect(keptFileName(saved, 'image/png')).toBe(saved);
  });

  it('stay within their header, whatever is in them', async () => {
    const hostile = 'a"; filename="b.html\r\nSet-Cookie: a=b\u202e\u2066;%00/../x\\y.png';
    const answer = await saved(hostile);
    const header = answer.headers.get('content-disposition')!;
    expect(header).toMatch(
      /^attachment; filename="[ !#-$&-.0-[\]-~]*\.png"; filename\*=UTF-8''[\w.!~%-]*\.png$/,
    );
    expect(answer.headers.get('set-cookie')).toBeNull();
  });

  it('lead to a download that no browser runs', async () => {
    const { headers } = await saved('page.html');
    expect(headers.get('content-disposition')).toMatch(/^attachment; filename="page\.html\.png"/);
    expect(headers.get('content-type')).toBe('image/png');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('content-security-policy')).toContain('sandbox');
    expect(headers.get('cache-control')).toContain('no-store');
  });

  async function saved(name: string): Promise<Response> {
    const query = new URLSearchParams({ cleaning: `${cleaning}`, name });
    const { document } = await answerOf(files.POST(post(`cleaning-files?${query}`, PNG)));
    const params = Promise.resolve({ id: `${document.id}` });
    return oneFile.GET(request(`cleaning-files/${document.id}`), { params });
  }
});

describe('more than is taken at once', () => {
  /** A body that says nothing of its length and goes on for ever. */
  function endless(piece: Uint8Array): { body: ReadableStream<Uint8Array>; taken: () => number } {
    let taken = 0;
    const pull = (controller: ReadableStreamDefaultController<Uint8Array>) => {
      taken += piece.length;
      controller.enqueue(piece);
    };
    return { body: new ReadableStream({ pull }), taken: () => taken };
  }

  it.each([
    ['a JSON document', 'units', units.POST, 32],
    ['a fleet', 'fleet', fleet.POST, 32],
    ['a file of a cleaning', 'cleaning-files', files.POST, 10],
  ])(
    '%s without end is refused when it is too large, and not read further',
    async (_, path, handler, most) => {
      const { body, taken } = endless(new Uint8Array(MEBIBYTE).fill(0x20));
      const query = path === 'cleaning-files' ? `?cleaning=${cleaning}&name=a.png` : '';
      const { status, document } = await answerOf(handler(post(path + query, body)));
      expect(status).toBe(413);
      expect(document.errors).toHaveLength(1);
      expect(taken()).toBeLessThanOrEqual((most + 4) * MEBIBYTE);
    },
  );

  it('a length that is stated is refused before anything is read', async () => {
    const { body, taken } = endless(new Uint8Array(MEBIBYTE));
    const sent = request('imports', {
      method: 'POST',
      body,
      headers: { 'content-length': `${2 ** 40}`, 'content-type': 'text/csv' },
    });
    expect((await answerOf(imports.POST(sent))).status).toBe(413);
    expect(taken()).toBeLessThanOrEqual(2 * MEBIBYTE);
  });

  it('a compressed file that unpacks to a thousand times its size is refused', async () => {
    const packed = gzipSync(
      Buffer.concat([Buffer.from('tag,time,hot_in[Cel]\n'), Buffer.alloc(300 * MEBIBYTE, 0x30)]),
    );
    expect(packed.length).toBeLessThan(MEBIBYTE);
    const { status, document } = await answerOf(imports.POST(post('imports', packed as never)));
    expect(status).toBe(413);
    expect(JSON.stringify(document)).not.toContain('zlib');
  }, 60_000);

  it('documents nested a million deep are no more than a mistake', async () => {
    for (const text of ['['.repeat(1_000_000), `${'{"a":'.repeat(200_000)}1${'}'.repeat(200_000)}`]) {
      expect((await answerOf(units.POST(post('units', text)))).status).toBe(422);
    }
  });
});

it('messages about names hold no characters that nobody sees', async () => {
  const query = new URLSearchParams({ cleaning: `${cleaning}`, name: 'a\u202e\u0007b.png' });
  const { document } = await answerOf(files.POST(post(`cleaning-files?${query}`, 'no photograph')));
  expect(document.detail).toBe('"ab.png" is no photograph and no report');
});

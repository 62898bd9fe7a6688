import Ajv2020, { type ValidateFunction } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { OPERATIONS } from '@/lib/contract/api/all-operations';
import { problemSchema } from '@/lib/contract/api/problem';
import { componentSchemas, idOf } from '@/lib/report/api/component-schemas';
import { describeApi } from '@/lib/work/describe-api';
import { apiDatabase, request } from '../support/api';
import { type Answers, type Setting, STORY, type Step, storySetting } from '../support/operation-story';
import { answerOfRoutes } from '../support/route-files';
import type { TemporaryDatabase } from '../support/temporary-database';

const document = describeApi();
const ajv = new Ajv2020({ strict: false, validateFormats: false, allErrors: true });
ajv.addSchema({ ...document, $id: 'published' });
const answers = Object.values(OPERATIONS).flatMap(({ answer }) =>
  Object.values(answer).filter((schema) => schema !== null),
);
// What is published leaves room for fields to come; what is answered today must all be documented.
ajv.addSchema({
  $id: 'closed',
  components: { schemas: Object.fromEntries(componentSchemas(answers, 'output', true)) },
});

const operationOf = (key: string) => {
  const [method, path] = key.split(' ') as [string, string];
  return document.paths[path.replaceAll('[', '{').replaceAll(']', '}')]![method.toLowerCase()] as {
    requestBody?: { content: Record<string, { schema?: { $ref: string } }> };
    responses: Record<string, { content: Record<string, { schema?: { $ref: string } }> }>;
  };
};

const validators = new Map<string, ValidateFunction>();
function faultsOf(ref: string, value: unknown): unknown {
  let validate = validators.get(ref);
  if (validate === undefined) {
    validate = ajv.compile({ $ref: ref });
    validators.set(ref, validate);
  }
  return validate(value) ? [] : validate.errors;
}

let database: TemporaryDatabase;
let setting: Setting;
const seen: Answers = new Map();
beforeAll(async () => {
  database = await apiDatabase();
  setting = await storySetting(database);
}, 240_000);
afterAll(() => database.remove());

async function send({ operation, path, body, raw, accept }: Step): Promise<Response> {
  const sent = body?.(seen, setting);
  const headers: Record<string, string> = accept === undefined ? {} : { accept };
  if (raw !== undefined) headers['content-type'] = raw.type;
  const content = raw?.content ?? (sent === undefined ? null : JSON.stringify(sent));
  return answerOfRoutes(
    request(path(seen, setting), { method: operation.split(' ')[0], body: content, headers }),
  );
}

// One story, told in order: later steps name what earlier ones made.
describe('what the handlers take and answer is what is documented', { timeout: 120_000 }, () => {
  it('tells of every operation', () => {
    expect([...new Set(STORY.map(({ operation }) => operation))].sort()).toEqual(
      Object.keys(OPERATIONS).sort(),
    );
  });

  it.each(STORY.map((step, index) => [index, step.operation, step] as const))(
    '%i: %s',
    async (_, key, step) => {
      const { requestBody, responses } = operationOf(key);
      const jsonBody = requestBody?.content['application/json']?.schema?.$ref;
      if (step.body !== undefined) {
        expect(faultsOf(`published${jsonBody}`, step.body(seen, setting))).toEqual([]);
      }
      if (step.raw !== undefined) expect(Object.keys(requestBody!.content)).toContain(step.raw.type);
      const response = await send(step);
      const type = response.headers.get('content-type')!.split(';')[0]!;
      const text = type.includes('json') ? await response.text() : '';
      expect([response.status, response.status === 200 ? '' : text]).toEqual([200, '']);
      const content = responses['200']!.content;
      expect(Object.keys(content)).toContain(type);
      for (const name of ['RateLimit', 'RateLimit-Policy', 'X-Request-Id'])
        expect(response.headers.has(name)).toBe(true);
      if (content[type]!.schema === undefined) return void (await response.body?.cancel());
      const documents = type === 'application/x-ndjson' ? text.trim().split('\n') : [text];
      for (const answer of documents.map((line) => JSON.parse(line) as unknown)) {
        seen.set(key, answer);
        expect(faultsOf(`published${content[type]!.schema!.$ref}`, answer)).toEqual([]);
        const closed = `closed#/components/schemas/${idOf(OPERATIONS[key]!.answer[type]!)}`;
        expect(faultsOf(closed, answer)).toEqual([]);
      }
    },
  );
});

describe('refusals of every operation', () => {
  const addressed = (key: string) => {
    const [method, path] = key.split(' ') as [string, string];
    return { method, path: path.replace('/api/v1/', '').replaceAll(/\[\w+\]/g, '7') };
  };
  const problemIn = async (response: Response) => {
    expect(response.headers.get('content-type')).toBe('application/problem+json');
    return problemSchema.strict().parse(await response.json());
  };

  it.each(Object.keys(OPERATIONS))(
    '%s: a problem document to nobody, to a token that is none, and to a foreign page',
    async (key) => {
      const { method, path } = addressed(key);
      const foreign = await answerOfRoutes(
        request(path, { method, headers: { origin: 'https://foreign.example' } }),
      );
      expect((await problemIn(foreign)).status).toBe(403);
      if (key.endsWith('openapi.json')) return;
      const wrong = await answerOfRoutes(
        request(path, { method, headers: { authorization: 'Bearer cleanby_none' } }),
      );
      expect(wrong.headers.get('www-authenticate')).toContain('Bearer');
      expect((await problemIn(wrong)).status).toBe(401);
      const bare = request(path, { method });
      bare.headers.delete('authorization');
      expect((await problemIn(await answerOfRoutes(bare))).status).toBe(401);
    },
  );

  it.each(Object.keys(OPERATIONS).filter((key) => OPERATIONS[key]!.body?.['application/json']))(
    '%s: another media type, no JSON, and a document without what is needed',
    async (key) => {
      const { method, path } = addressed(key);
      const statusOf = async (body: string, type: string) => {
        const sent = request(path, { method, body, headers: { 'content-type': type } });
        return (await problemIn(await answerOfRoutes(sent))).status;
      };
      expect(await statusOf('a=b', 'application/x-www-form-urlencoded')).toBe(415);
      expect(await statusOf('{', 'application/json')).toBe(422);
      expect([404, 422]).toContain(await statusOf('[]', 'application/json'));
    },
  );

  it('names the methods of an address where another is used, and an address that is none', async () => {
    const other = await answerOfRoutes(request('units/E-1/daily', { method: 'DELETE' }));
    expect([other.status, other.headers.get('allow')]).toEqual([405, 'GET, HEAD, OPTIONS']);
    expect((await problemIn(other)).type).toBe('urn:cleanby:problem:method-not-allowed');
    for (const path of ['nothing', 'units/E-1/nothing', '../nothing', 'units/E-1/daily/more']) {
      const response = await answerOfRoutes(request(path));
      expect([path, (await problemIn(response)).status]).toEqual([path, 404]);
    }
  });
});

import type { z } from 'zod';
import { type Content, GROUPS, type Operation } from '@/lib/contract/api/operation';
import { problemSchema } from '@/lib/contract/api/problem';
import { ERROR_CODES } from '@/lib/contract/app-error';
import { bothSides } from './both-sides';
import { componentSchemas, idOf, type JsonSchema, refTo } from './component-schemas';
import { errorsByStatus, errorsOf } from './operation-errors';

const TOKEN = 'token';

const DESCRIPTION = `The verbs of Cleanby over HTTP. Quantities are sent as {"value", "unit"} with UCUM units, answers are plain
numbers in SI (temperatures in degrees Celsius), times ISO 8601 with offset. Refusals are problem documents of RFC 9457 that name each
field. RateLimit and RateLimit-Policy tell how the limits stand (draft-ietf-httpapi-ratelimit-headers-10); with 429 and 503
Retry-After says when to ask again. X-Request-Id names the request in the log of the server.`;

export type OpenApi = { openapi: string; paths: Record<string, Record<string, JsonSchema>> } & JsonSchema;

type Source = {
  operations: Record<string, Operation>;
  /** Who may, by the same keys. */
  rules: Record<string, string>;
  /** What each right allows, in words. */
  rights: Record<string, string>;
};

/** The HTTP API as an OpenAPI 3.1 document. */
export function openApi({ operations, rules, rights }: Source): OpenApi {
  const every = Object.values(operations);
  const sent = componentSchemas(
    every.flatMap(({ query, body }) => [...schemasOf(body), ...(query ? [query] : [])]),
    'input',
  );
  const answered = componentSchemas(
    [problemSchema, ...every.flatMap(({ answer }) => schemasOf(answer))],
    'output',
  );
  const queries = new Map(
    every.flatMap(({ query }) => (query ? [[idOf(query), sent.get(idOf(query))!]] : [])),
  );
  for (const id of queries.keys()) sent.delete(id);
  const { schemas, sentName } = bothSides(sent, answered);
  const paths: OpenApi['paths'] = {};
  for (const [key, operation] of Object.entries(operations)) {
    const [method, path] = key.split(' ') as [string, string];
    const rule = rules[key] ?? 'anyone';
    const facts = {
      key,
      operation,
      rule,
      rights,
      sentName,
      query: operation.query && queries.get(idOf(operation.query)),
    };
    const address = addressOf(path);
    paths[address] = { ...paths[address], [method.toLowerCase()]: operationObject(facts) };
  }
  return {
    openapi: '3.1.1',
    info: {
      title: 'Cleanby',
      version: '1',
      description: DESCRIPTION.replaceAll('\n', ' '),
      license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
    },
    servers: [{ url: '/' }],
    tags: GROUPS.map((name) => ({ name })),
    paths,
    components: {
      schemas,
      securitySchemes: {
        [TOKEN]: {
          type: 'http',
          scheme: 'bearer',
          description: 'A token, made on the page of tokens or by `cleanby token add`',
        },
      },
    },
  };
}

/** `/units/[tag]` as the document writes it. */
function addressOf(path: string): string {
  return path.replaceAll('[', '{').replaceAll(']', '}');
}

function schemasOf(content: Content = {}): z.ZodType[] {
  return Object.values(content).filter((schema) => schema !== null);
}

type Facts = {
  key: string;
  operation: Operation;
  rule: string;
  rights: Record<string, string>;
  sentName: (id: string) => string;
  query: JsonSchema | undefined;
};

function operationObject({ key, operation, rule, rights, sentName, query }: Facts): JsonSchema {
  const { group, summary, details, body, answer } = operation;
  const needs = rule === 'anyone' ? 'Anybody may ask.' : `Needs the right "${rule}": ${rights[rule] ?? ''}.`;
  const parameters = [...pathParameters(key), ...queryParameters(query)];
  return {
    operationId: operationId(key),
    tags: [group],
    summary,
    description: details === undefined ? needs : `${details} ${needs}`,
    ...(parameters.length === 0 ? {} : { parameters }),
    ...(body === undefined
      ? {}
      : { requestBody: { required: true, content: contentObject(body, sentName) } }),
    responses: {
      200: { description: 'Done', headers: LIMIT_HEADERS, content: contentObject(answer, (id) => id) },
      ...problems(key, operation, rule),
    },
    security: rule === 'anyone' ? [] : [{ [TOKEN]: [rule] }],
  };
}

/** `GET /api/v1/units/[tag]/daily` is `getUnitsTagDaily`. */
function operationId(key: string): string {
  const [method, path] = key.split(' ') as [string, string];
  const words = path
    .replace('/api/v1/', '')
    .split(/[^A-Za-z]+/)
    .filter((word) => word !== '');
  return method.toLowerCase() + words.map((word) => word[0]!.toUpperCase() + word.slice(1)).join('');
}

const SEGMENTS: Record<string, JsonSchema> = {
  tag: { schema: { type: 'string' }, description: 'Tag of a unit, percent-encoded' },
  name: { schema: { type: 'string' }, description: 'Its name, percent-encoded' },
  id: { schema: { type: 'integer', minimum: 1 }, description: 'Its number' },
  batch: { schema: { type: 'integer', minimum: 1 }, description: 'Number of an import' },
};

function pathParameters(key: string): JsonSchema[] {
  return [...key.matchAll(/\[(\w+)\]/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    ...SEGMENTS[name!],
  }));
}

function queryParameters(query: JsonSchema | undefined): JsonSchema[] {
  const required = (query?.required ?? []) as string[];
  return Object.entries((query?.properties ?? {}) as Record<string, JsonSchema>).map(([name, property]) => {
    const { description, ...schema } = property;
    return {
      name,
      in: 'query',
      required: required.includes(name),
      ...(description === undefined ? {} : { description }),
      schema,
    };
  });
}

function contentObject(content: Content, nameOf: (id: string) => string): JsonSchema {
  return Object.fromEntries(
    Object.entries(content).map(([type, schema]) => [
      type,
      schema === null ? {} : { schema: refTo(nameOf(idOf(schema))) },
    ]),
  );
}

const LIMIT_HEADERS = {
  RateLimit: {
    schema: { type: 'string' },
    description: 'What is left of each limit, and when it is whole again',
  },
  'RateLimit-Policy': { schema: { type: 'string' }, description: 'The limits' },
  'X-Request-Id': {
    schema: { type: 'string' },
    description: 'Number of the request in the log of the server',
  },
};

const RETRY_AFTER = {
  'Retry-After': { schema: { type: 'integer' }, description: 'Seconds to wait before asking again' },
};
const RETRIED = [429, 503];

function problems(key: string, operation: Operation, rule: string): JsonSchema {
  const content = { 'application/problem+json': { schema: refTo(idOf(problemSchema)) } };
  const refused = [...errorsByStatus(errorsOf(key, operation, rule))].map(([status, codes]) => {
    const description = codes.map((code) => `${code}: ${ERROR_CODES[code].title}`).join('; ');
    return [status, { description, ...(RETRIED.includes(status) ? { headers: RETRY_AFTER } : {}), content }];
  });
  return {
    ...Object.fromEntries(refused),
    500: { description: 'internal: Something went wrong here', content },
  };
}

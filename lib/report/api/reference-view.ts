import { ERROR_CODES } from '@/lib/contract/app-error';
import { type JsonSchema, refsOf } from './component-schemas';
import type { OpenApi } from './open-api';
import { type ShapeLine, schemaShape } from './schema-shape';

type Kind = { type: string; schema: string | null };
type Parameter = { name: string; place: string; kind: string; isRequired: boolean; note: string };

export type OperationView = {
  id: string;
  method: string;
  path: string;
  summary: string;
  description: string;
  parameters: Parameter[];
  takes: Kind[];
  answers: Kind[];
  /** Statuses it can be refused with. */
  refusals: string;
};

export type ReferenceView = {
  groups: { name: string; id: string; operations: OperationView[] }[];
  schemas: { name: string; description: string; lines: ShapeLine[] }[];
  problems: { type: string; status: number; title: string }[];
};

type Described = {
  operationId: string;
  tags: string[];
  summary: string;
  description: string;
  parameters?: { name: string; in: string; required: boolean; description?: string; schema: JsonSchema }[];
  requestBody?: { content: Content };
  responses: Record<string, { content: Content }>;
};
type Content = Record<string, { schema?: JsonSchema }>;

/** The description of the HTTP API as a page to read. */
export function referenceView(document: OpenApi): ReferenceView {
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, described]) => ({
      method: method.toUpperCase(),
      path,
      described: described as unknown as Described,
    })),
  );
  const { schemas } = document.components as { schemas: Record<string, JsonSchema> };
  return {
    groups: (document.tags as { name: string }[]).flatMap(({ name }) => {
      const own = operations.filter(({ described }) => described.tags.includes(name)).map(operationView);
      return own.length === 0
        ? []
        : [{ name, id: `group-${name.toLowerCase().replaceAll(' ', '-')}`, operations: own }];
    }),
    schemas: Object.entries(schemas).map(([name, schema]) => ({
      name,
      description: typeof schema.description === 'string' ? schema.description : '',
      lines: schemaShape(schema),
    })),
    problems: Object.entries(ERROR_CODES).map(([type, { status, title }]) => ({ type, status, title })),
  };
}

function operationView({
  method,
  path,
  described,
}: {
  method: string;
  path: string;
  described: Described;
}): OperationView {
  const { operationId: id, summary, description, parameters = [], requestBody, responses } = described;
  return {
    id,
    method,
    path,
    summary,
    description,
    parameters: parameters.map(({ name, in: place, required, description: note = '', schema }) => ({
      name,
      place,
      kind: schemaShape(schema)
        .map(({ text }) => text.trim())
        .join(' '),
      isRequired: required,
      note:
        schema.default === undefined
          ? note
          : `${note}${note === '' ? '' : '; '}${JSON.stringify(schema.default)} where not stated`,
    })),
    takes: kindsOf(requestBody?.content ?? {}),
    answers: kindsOf(responses['200']?.content ?? {}),
    refusals: Object.keys(responses)
      .filter((status) => status !== '200')
      .join(', '),
  };
}

function kindsOf(content: Content): Kind[] {
  return Object.entries(content).map(([type, { schema }]) => ({
    type,
    schema: refsOf(schema ?? {})[0] ?? null,
  }));
}

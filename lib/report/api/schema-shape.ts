import { type JsonSchema, refsOf } from './component-schemas';

/** A line of a schema written out; `note` says what the field means. */
export type ShapeLine = { text: string; note: string };

const WORDS: Record<string, string> = {
  string: 'text',
  number: 'number',
  integer: 'whole number',
  boolean: 'true or false',
  null: 'null',
};

/** A schema as people read it: fields with their kinds, one a line, what is optional with a question mark. */
export function schemaShape(schema: JsonSchema): ShapeLine[] {
  return written(schema, '', { before: '', note: '' });
}

type Place = { before: string; note: string };

function written(schema: JsonSchema, indent: string, { before, note }: Place): ShapeLine[] {
  const line = (text: string) => [{ text: indent + before + text, note }];
  const choices = (schema.anyOf ?? schema.oneOf) as JsonSchema[] | undefined;
  if (choices !== undefined) return choiceLines(choices, indent, { before, note });
  if (schema.type === 'array') {
    // A list of fixed length says `items: false` behind its first places.
    const places = schema.prefixItems as JsonSchema[] | undefined;
    const items = places?.[0] ?? ((schema.items || {}) as JsonSchema);
    return written(items, indent, { before: `${before}list of `, note });
  }
  const properties = schema.properties as Record<string, JsonSchema> | undefined;
  if (properties !== undefined) {
    const required = (schema.required ?? []) as string[];
    const fields = Object.entries(properties).flatMap(([name, inner]) => {
      const mark = required.includes(name) ? '' : '?';
      return written(inner, `${indent}  `, { before: `${name}${mark}: `, note: noteOf(inner) });
    });
    return [...line('{'), ...fields, { text: `${indent}}`, note: '' }];
  }
  if (schema.type === 'object' && schema.additionalProperties) {
    const inner = schema.additionalProperties === true ? {} : (schema.additionalProperties as JsonSchema);
    return written(inner, indent, { before: `${before}by name: `, note });
  }
  return line(kindOf(schema));
}

/** One of several: simple ones in a line, `or null` behind, and of shapes each in turn. */
function choiceLines(choices: JsonSchema[], indent: string, { before, note }: Place): ShapeLine[] {
  const isNull = (choice: JsonSchema) => choice.type === 'null';
  const others = choices.filter((choice) => !isNull(choice));
  const ending = choices.some(isNull) ? ' or null' : '';
  const parts = others.map((choice) => written(choice, indent, { before: '', note: '' }));
  if (parts.every((part) => part.length === 1)) {
    return [
      { text: `${indent}${before}${parts.map(([only]) => only!.text.trim()).join(' or ')}${ending}`, note },
    ];
  }
  return others.flatMap((choice, index) => {
    const lines = written(choice, indent, {
      before: index === 0 ? before : 'or ',
      note: index === 0 ? note : '',
    });
    const last = lines.at(-1)!;
    return index < others.length - 1 ? lines : [...lines.slice(0, -1), { ...last, text: last.text + ending }];
  });
}

function kindOf(schema: JsonSchema): string {
  const [ref] = '$ref' in schema ? refsOf(schema) : [];
  if (ref !== undefined) return ref;
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (Array.isArray(schema.enum)) return schema.enum.map((value) => JSON.stringify(value)).join(' or ');
  if (schema.format === 'date-time') return 'instant';
  if (schema.format === 'date') return 'day';
  return WORDS[String(schema.type)] ?? 'anything';
}

function noteOf({ description }: JsonSchema): string {
  return typeof description === 'string' ? description : '';
}

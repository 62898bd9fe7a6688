import type { z } from 'zod';
import type { Fault } from './app-error';

type Issue = z.core.$ZodIssue;

/** zod's issues as faults, the field written as a person would point at it: `units[2].design.hotIn.unit`. */
export function faultsOf(error: z.ZodError, prefix = ''): Fault[] {
  return error.issues
    .flatMap((issue) => nearest(issue))
    .flatMap((issue) => byKey(issue))
    .map((issue) => ({ field: prefix + fieldPath(issue.path), message: messageOf(issue) }));
}

function fieldPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) =>
      typeof key === 'number' ? `${text}[${key}]` : text === '' ? String(key) : `${text}.${String(key)}`,
    '',
  );
}

/**
 * Of a choice between shapes zod only says that none fits. What was meant is the shape that was followed furthest: its
 * issues are told, at their own place.
 */
function nearest(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [issue];
  const depth = (branch: Issue[]) => Math.min(...branch.flatMap(byKey).map(({ path }) => path.length));
  const [meant] = [...issue.errors].sort((a, b) => depth(b) - depth(a) || a.length - b.length);
  if (meant === undefined || depth(meant) === 0) return [issue];
  return meant.flatMap((inner) => nearest({ ...inner, path: [...issue.path, ...inner.path] }));
}

/** A key that a shape does not know is told at its own place. */
function byKey(issue: Issue): Issue[] {
  if (issue.code !== 'unrecognized_keys') return [issue];
  return issue.keys.map((key) => ({ ...issue, keys: [key], path: [...issue.path, key] }));
}

/** zod's own wording is a programmer's; messages written in the schemas stand as they are. */
const ZOD_WORDING = /^(Invalid|Too small|Too big|Unrecognized)/;
const TYPE_WORDS: Record<string, string> = {
  object: 'an object',
  array: 'a list',
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
};

function messageOf(issue: Issue): string {
  if (!ZOD_WORDING.test(issue.message)) return issue.message;
  switch (issue.code) {
    case 'invalid_type':
      return issue.message.endsWith('received undefined')
        ? 'is missing'
        : `must be ${TYPE_WORDS[issue.expected] ?? issue.expected}`;
    case 'invalid_value':
      return `must be one of ${issue.values.map(String).join(', ')}`;
    case 'too_small':
      return sizeMessage(issue, issue.minimum, issue.inclusive === false ? 'greater than' : 'at least');
    case 'too_big':
      return sizeMessage(issue, issue.maximum, issue.inclusive === false ? 'less than' : 'at most');
    case 'unrecognized_keys':
      return 'is not known here: check how it is spelt';
    default:
      return issue.message;
  }
}

function sizeMessage({ origin }: { origin: string }, size: number | bigint, comparison: string): string {
  if (origin === 'array') return `must hold ${comparison} ${size}`;
  return origin === 'string' ? `must have ${comparison} ${size} characters` : `must be ${comparison} ${size}`;
}

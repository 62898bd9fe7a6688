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
 * Of a choice between shapes zod only says that none fits. What was meant is the shape that was followed furthest, with the
 * fewest faults there, and of these the one whose own fields the unknown ones are most like: its issues are told, at their own
 * place.
 */
function nearest(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [issue];
  const [meant] = issue.errors.map((branch) => ({ branch, ...closeness(branch) })).sort(closerFirst);
  if (meant === undefined || meant.depth === 0) return [issue];
  return meant.branch.flatMap((inner) => nearest({ ...inner, path: [...issue.path, ...inner.path] }));
}

type Closeness = { depth: number; faults: number; suggestions: number };

function closeness(branch: Issue[]): Closeness {
  const issues = branch.flatMap(byKey);
  const depth = Math.min(...issues.map(({ path }) => path.length));
  return {
    depth,
    faults: issues.filter(({ path }) => path.length === depth).length,
    suggestions: issues.filter(({ code, message }) => code === 'unrecognized_keys' && message.includes('?'))
      .length,
  };
}

function closerFirst(a: Closeness, b: Closeness): number {
  return b.depth - a.depth || a.faults - b.faults || b.suggestions - a.suggestions;
}

/** A key that a shape does not know is told at its own place; `onlyKnown` words each on a line of its own. */
function byKey(issue: Issue): Issue[] {
  if (issue.code !== 'unrecognized_keys') return [issue];
  const lines = issue.message.split('\n');
  return issue.keys.map((key, index) => ({
    ...issue,
    keys: [key],
    path: [...issue.path, key],
    message: lines[index] ?? issue.message,
  }));
}

/** Whether nothing is wrong but fields that are not known: what is stored may hold fields of another time. */
export function isOnlyUnknownFields(issue: Issue): boolean {
  if (issue.code === 'invalid_union')
    return issue.errors.some((branch) => branch.length > 0 && branch.every(isOnlyUnknownFields));
  return issue.code === 'unrecognized_keys';
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

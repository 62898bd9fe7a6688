import type { z } from 'zod';
import type { Fault } from './app-error';

/** zod's issues as faults, the field written as a person would point at it: `units[2].design.hotIn.unit`. */
export function faultsOf(error: z.ZodError, prefix = ''): Fault[] {
  return error.issues.map((issue) => ({ field: prefix + fieldPath(issue.path), message: issue.message }));
}

function fieldPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) =>
      typeof key === 'number' ? `${text}[${key}]` : text === '' ? String(key) : `${text}.${String(key)}`,
    '',
  );
}

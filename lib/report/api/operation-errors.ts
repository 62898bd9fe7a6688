import type { Operation } from '@/lib/contract/api/operation';
import { ERROR_CODES, type ErrorCode } from '@/lib/contract/app-error';

/** Every code an operation can refuse with: its own, and those of its kind. */
export function errorsOf(key: string, operation: Operation, rule: string): ErrorCode[] {
  const codes = new Set<ErrorCode>(operation.errors ?? []);
  codes.add('too-many-requests').add('database-unusable');
  // Foreign hosts and origins are refused to everybody.
  codes.add('not-allowed');
  if (rule !== 'anyone') codes.add('not-signed-in');
  if (key.includes('[')) codes.add('not-found');
  if (operation.query !== undefined || operation.body !== undefined) codes.add('invalid-input');
  if (operation.body !== undefined) codes.add('unsupported-type').add('too-large');
  const inOrder = Object.keys(ERROR_CODES) as ErrorCode[];
  return inOrder.filter((code) => codes.has(code));
}

/** The same by the status they come with, ascending. */
export function errorsByStatus(codes: ErrorCode[]): Map<number, ErrorCode[]> {
  const byStatus = new Map<number, ErrorCode[]>();
  for (const code of codes) {
    const { status } = ERROR_CODES[code];
    byStatus.set(status, [...(byStatus.get(status) ?? []), code]);
  }
  return new Map([...byStatus].sort(([a], [b]) => a - b));
}

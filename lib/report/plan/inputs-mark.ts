import type { PlanRequest } from '@/lib/contract/plan';
import type { DeskInput } from './plan-desk';

/** Of the 32-bit hash FNV-1a (Fowler, Noll & Vo). */
const OFFSET_BASIS = 0x811c9dc5;
const PRIME = 0x01000193;
/** A second hash begins elsewhere, so that two inputs with one mark are not met in practice. */
const OTHER_BASIS = 0x9e3779b9;

/** A short mark of all that a plan is made from: other readings, prices, calendar or settings give another. */
export function inputsMark(desk: DeskInput, request: PlanRequest): string {
  const text = JSON.stringify([desk, request]);
  return [OFFSET_BASIS, OTHER_BASIS].map((basis) => hash(text, basis).toString(36)).join('-');
}

function hash(text: string, basis: number): number {
  let mixed = basis;
  for (let at = 0; at < text.length; at++) mixed = Math.imul(mixed ^ text.charCodeAt(at), PRIME);
  return mixed >>> 0;
}

'use server';

import { revalidatePath } from 'next/cache';
import { openAction } from '@/app/access/open-page';
import { parse } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { markRequestSchema } from '@/lib/contract/review';
import { markReviewLine } from '@/lib/work/mark-review-line';

/** `at` is new with every mark kept, so that a form knows when to empty itself. */
export type MarkOutcome =
  | { kind: 'none' }
  | { kind: 'done'; at: string }
  | { kind: 'refused'; message: string };

/** Writes down what whoever is signed in did about a line. */
export async function markLineAction(_before: MarkOutcome, form: FormData): Promise<MarkOutcome> {
  try {
    const context = await openAction('markLineAction');
    const stated = Object.fromEntries([...form].map(([name, value]) => [name, `${value}`]));
    const { at } = await markReviewLine(context, parse(stated, markRequestSchema));
    revalidatePath('/review');
    return { kind: 'done', at };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return { kind: 'refused', message: error.faults[0]?.message ?? error.message };
  }
}

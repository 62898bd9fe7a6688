'use server';

import { revalidatePath } from 'next/cache';
import { openAction } from '@/app/access/open-page';
import { parse } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { markRequestSchema } from '@/lib/contract/review';
import { markReviewLine } from '@/lib/work/mark-review-line';
import { readPerson } from './person';

/** `at` is new with every mark kept, so that a form knows when to empty itself. */
export type MarkOutcome =
  | { kind: 'none' }
  | { kind: 'done'; at: string }
  | { kind: 'refused'; message: string };

/** Writes down what the person of this browser did about a line. */
export async function markLineAction(_before: MarkOutcome, form: FormData): Promise<MarkOutcome> {
  const by = await readPerson();
  if (by.trim() === '')
    return { kind: 'refused', message: 'Say who you are first: “Your name”, above the list.' };
  try {
    const stated = Object.fromEntries([...form].map(([name, value]) => [name, `${value}`]));
    const { at } = await markReviewLine(
      await openAction('markLineAction'),
      parse({ ...stated, by }, markRequestSchema),
    );
    revalidatePath('/review');
    return { kind: 'done', at };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return { kind: 'refused', message: error.faults[0]?.message ?? error.message };
  }
}

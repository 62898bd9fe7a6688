'use server';

import { revalidatePath } from 'next/cache';
import { openAction } from '@/app/access/open-page';
import type { FormOutcome } from '@/app/units/[tag]/form-outcome';
import { AppError } from '@/lib/contract/app-error';
import { formatDay } from '@/lib/report/format/time';
import { readPriceForm } from '@/lib/report/prices/price-input';
import { takePrice } from '@/lib/work/record-price';

/** Records what the form states, or takes an entry back, and prices anew. */
export async function recordPriceAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  const fields = Object.fromEntries([...form].map(([name, value]) => [name, `${value}`]));
  try {
    const context = await openAction('recordPriceAction');
    const request = readPriceForm(fields);
    await takePrice(context, request);
    revalidatePath('/', 'layout');
    const done = request.withdraw ? 'Withdrawn' : 'Recorded';
    return { kind: 'done', message: `${done}: ${request.supply} from ${formatDay(request.from)}.` };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    if (error.code === 'conflict') revalidatePath('/', 'layout');
    const errors = Object.fromEntries(error.faults.map(({ field, message }) => [field, message]));
    return { kind: 'refused', message: error.message, errors, fields };
  }
}

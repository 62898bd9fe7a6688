'use server';

import type { FormOutcome } from '@/app/units/[tag]/form-outcome';
import { settle } from '@/app/units/[tag]/settle';
import { AppError } from '@/lib/contract/app-error';
import { workCallOffSchema, workLinkSchema } from '@/lib/contract/planned';
import { revisionOf } from '@/lib/report/unit/form-fields';
import { checked, readDoneForm, readMoveForm } from '@/lib/report/work-list/work-input';
import { callOffPlanned } from '@/lib/work/call-off-planned';
import { type CheckedMove, checkMove } from '@/lib/work/check-move';
import { finishPlanned, linkPlanned } from '@/lib/work/finish-planned';
import { knownUnit } from '@/lib/work/known-unit';
import { movePlanned } from '@/lib/work/move-planned';

/** Marks work done; gives the number of the cleaning, which files can then be kept with. */
export async function finishWorkAction(
  form: FormData,
): Promise<{ outcome: FormOutcome; cleaning: number | null }> {
  let cleaning: number | null = null;
  const outcome = await settle('finishWorkAction', form, async (context, { tag, fields }) => {
    const { timeZone } = (await knownUnit(context, tag)).site;
    const done = await finishPlanned(context, Number(fields.id), readDoneForm(fields, timeZone));
    cleaning = done.cleaning;
    return `Recorded: ${tag} cleaned. A new cycle begins there.`;
  });
  return { outcome, cleaning };
}

/** Says that a cleaning recorded elsewhere was this piece of work. */
export async function linkWorkAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('linkWorkAction', form, async (context, { fields }) => {
    const link = checked(workLinkSchema, { cleaning: Number(fields.cleaning), revision: revisionOf(fields) });
    await linkPlanned(context, Number(fields.id), link);
    return 'Marked done.';
  });
}

export async function moveWorkAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('moveWorkAction', form, async (context, { tag, fields }) => {
    const { timeZone } = (await knownUnit(context, tag)).site;
    const move = readMoveForm(fields, timeZone);
    if (fields.anyway !== fields.from) checkBreaks(await checkMove(context, Number(fields.id), move));
    await movePlanned(context, Number(fields.id), move);
    return 'Moved.';
  });
}

/** A person sees what a move breaks before it is made. @throws AppError 'conflict' naming it all */
function checkBreaks({ moved: { breaks } }: CheckedMove): void {
  if (breaks.length === 0) return;
  const message = breaks.join('; ');
  throw new AppError('conflict', 'Not moved yet: it clashes there', [{ field: 'anyway', message }]);
}

export async function callOffWorkAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('callOffWorkAction', form, async (context, { fields }) => {
    const asked = checked(workCallOffSchema, { reason: fields.reason ?? '', revision: revisionOf(fields) });
    await callOffPlanned(context, Number(fields.id), asked);
    return 'Called off.';
  });
}

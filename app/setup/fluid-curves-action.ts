'use server';

import { openAction } from '@/app/access/open-page';
import type { FluidCurves } from '@/lib/contract/fluid-curves';
import { fluidCurves } from '@/lib/work/fluid-curves';

/** The properties that are used for a stream of the form. */
export async function fluidCurvesAction(stream: unknown): Promise<FluidCurves | null> {
  await openAction('fluidCurvesAction');
  return fluidCurves(stream);
}

'use server';

import { openAction } from '@/app/access/open-page';
import type { PropertyRows } from '@/lib/contract/property-rows';
import { readPropertyRows } from '@/lib/work/read-property-rows';

/** Reads a pasted table of fluid properties for the form. */
export async function readRowsAction(text: string): Promise<PropertyRows> {
  await openAction('readRowsAction');
  return readPropertyRows(text);
}

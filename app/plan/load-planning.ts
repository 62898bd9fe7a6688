import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { AppError } from '@/lib/contract/app-error';
import type { Planning } from '@/lib/report/plan/planning';
import { readPlanning } from '@/lib/work/read-planning';

/** What the site of an address is planned from; the page of what is not there for a site that is not. */
export async function loadPlanning(site: string | null): Promise<Planning> {
  try {
    return await readPlanning(await openPage('/plan'), site);
  } catch (error) {
    if (error instanceof AppError && error.code === 'not-found') notFound();
    throw error;
  }
}

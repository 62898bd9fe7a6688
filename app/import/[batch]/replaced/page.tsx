import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { AppError } from '@/lib/contract/app-error';
import type { ReplacedReadings } from '@/lib/contract/replaced-readings';
import { replacedView } from '@/lib/report/import/replaced-view';
import { showReplaced } from '@/lib/work/read-replaced';
import { ReplacedScreen } from './replaced-screen';

export const metadata = { title: 'Values an import replaced' };

export default async function Page({ params }: { params: Promise<{ batch: string }> }) {
  return <ReplacedScreen view={replacedView(await load((await params).batch))} />;
}

async function load(batch: string): Promise<ReplacedReadings> {
  const context = await openPage('/import/[batch]/replaced');
  if (!/^[1-9]\d{0,14}$/.test(batch)) notFound();
  try {
    return await showReplaced(context, Number(batch));
  } catch (error) {
    if (error instanceof AppError && error.code === 'not-found') notFound();
    throw error;
  }
}

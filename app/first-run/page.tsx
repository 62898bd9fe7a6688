import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { isFromThisMachine } from '@/lib/auth/caller';
import { isFirstRun } from '@/lib/work/people/first-run';
import { FirstRunScreen } from './first-run-screen';

export const metadata = { title: 'First account' };

export default async function Page() {
  if (!(await isFirstRun(await openPage('/first-run')))) redirect('/sign-in');
  return <FirstRunScreen needsCode={!isFromThisMachine(await headers())} />;
}

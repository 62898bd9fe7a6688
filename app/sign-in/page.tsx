import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { openPage, readVisitor } from '@/app/access/open-page';
import { wayBack } from '@/app/access/way-back';
import type { SearchParams } from '@/app/ui/preferences';
import { identityProvider } from '@/lib/auth/identity-provider';
import { problemWords } from '@/lib/report/people/problem-words';
import { isFirstRun } from '@/lib/work/people/first-run';
import { demoAccounts } from '@/lib/work/people/sign-in-demo';
import { SignInScreen } from './sign-in-screen';

export const metadata = { title: 'Sign in' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const to = wayBack(given.to);
  const context = await openPage('/sign-in');
  if ((await readVisitor()) !== null) redirect(to);
  if (await isFirstRun(context)) redirect('/first-run');
  const demo = await demoAccounts(context, await headers());
  const provider = identityProvider()?.name ?? null;
  const offered = demo.map(({ name, email }) => ({ name, email }));
  return <SignInScreen to={to} demo={offered} provider={provider} problem={problemWords(given.problem)} />;
}

import { openPage, sentHeaders } from '@/app/access/open-page';
import { accountView } from '@/lib/report/people/account-view';
import { readAccount } from '@/lib/work/people/read-account';
import { AccountScreen } from './account-screen';

export const metadata = { title: 'Your account' };

export default async function Page() {
  const records = await readAccount(await openPage('/account'), await sentHeaders());
  return <AccountScreen view={accountView(records, Date.now())} />;
}

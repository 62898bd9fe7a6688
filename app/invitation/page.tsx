import { openPage } from '@/app/access/open-page';
import { InvitationScreen } from './invitation-screen';

export const metadata = { title: 'Invitation' };

export default async function Page() {
  await openPage('/invitation');
  return <InvitationScreen />;
}

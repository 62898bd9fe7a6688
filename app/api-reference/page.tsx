import { openPage } from '@/app/access/open-page';
import { SCOPE_WORDS } from '@/lib/auth/scope-words';
import { referenceView } from '@/lib/report/api/reference-view';
import { describeApi } from '@/lib/work/describe-api';
import { exampleClient } from '@/lib/work/example-client';
import { ReferenceScreen } from './reference-screen';

export const metadata = { title: 'HTTP API' };

export default async function Page() {
  await openPage('/api-reference');
  const client = await exampleClient();
  return <ReferenceScreen view={referenceView(describeApi())} scopes={SCOPE_WORDS} client={client} />;
}

import { openPage } from '@/app/access/open-page';
import { peopleView } from '@/lib/report/people/people-view';
import { readPeople } from '@/lib/work/people/read-people';
import { PeopleScreen } from './people-screen';

export const metadata = { title: 'People' };

export default async function Page() {
  const context = await openPage('/people');
  return <PeopleScreen view={peopleView(await readPeople(context), context.actor.id)} />;
}

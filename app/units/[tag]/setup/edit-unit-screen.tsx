import Link from 'next/link';
import { SetupForm } from '@/app/setup/setup-form';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { SetupView } from '@/lib/report/setup/setup-records';
import { unitPath } from '@/lib/report/unit/unit-address';
import { EditLead } from './edit-lead';

/** The datasheet of a unit, to be changed: every saved change is a new version, the old ones are kept. */
export function EditUnitScreen({ view }: { view: SetupView }) {
  const { tag, version } = view;
  return (
    <>
      <PageHeader
        title={`Datasheet of ${tag}`}
        context={
          <>
            version {version} · <Link href={unitPath(tag ?? '')}>back to the unit</Link>
          </>
        }
      >
        <EditLead version={version ?? 0} />
      </PageHeader>
      <SetupForm key={`${tag} ${version}`} view={view} />
    </>
  );
}

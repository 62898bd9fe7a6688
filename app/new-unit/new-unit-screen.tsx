import Link from 'next/link';
import { SetupForm } from '@/app/setup/setup-form';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { SetupView } from '@/lib/report/setup/setup-records';
import { FleetUpload } from './fleet-upload';

/** A unit from its datasheet, or a whole fleet from a file. */
export function NewUnitScreen({ view }: { view: SetupView }) {
  return (
    <>
      <PageHeader
        title="Add a unit"
        actions={
          <>
            <Link href="/fleet-sheet">Many units by spreadsheet</Link>
            <a href="#fleet-file">Register a whole fleet file</a>
          </>
        }
      >
        <p>
          From the datasheet: how it is built, its area, what flows through it, the clean duty point and the
          limit by which it is judged. What you leave out is assumed, and shown as assumed.
        </p>
      </PageHeader>
      <SetupForm view={view} />
      <FleetUpload />
    </>
  );
}

import Link from 'next/link';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { MappingView } from '@/lib/report/import/mapping-view';
import { DeleteMapping } from '../../delete-mapping';
import { EditMapping } from './edit-mapping';

/** A saved mapping to look at and change, without a file at hand. */
export function MappingScreen({ view, system }: { view: MappingView; system: UnitSystem }) {
  const { saved, changed } = view;
  return (
    <>
      <Breadcrumb>
        <Link href="/import">Import readings</Link> / Saved mapping
      </Breadcrumb>
      <PageHeader
        title={`Mapping “${saved.name}”`}
        actions={<DeleteMapping name={saved.name} revision={saved.revision} />}
      >
        <p>{changed}</p>
      </PageHeader>
      <EditMapping key={saved.revision} view={view} system={system} />
    </>
  );
}

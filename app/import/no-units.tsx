import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { ImportView } from '@/lib/report/import/import-view';
import { FileHelp } from './file-help';

/** Readings belong to units: before there is any, this says what to do first and how the file will look. */
export function NoUnits({ template }: { template: ImportView['template'] }) {
  return (
    <>
      <PageHeader title="Import readings" />
      <Empty
        title="Add a unit first"
        actions={
          <ButtonLink href="/new-unit" weight="primary">
            Add a unit
          </ButtonLink>
        }
      >
        <p>
          Readings belong to a registered unit: its datasheet says what clean means. Add one unit, or register
          a whole fleet file, then come back with the readings.
        </p>
      </Empty>
      <FileHelp template={template} isOpen />
    </>
  );
}

import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { RecordView } from '@/lib/report/record/record-view';
import { WideningList } from './widening-list';

/** Before the first cycle has ended: nothing can be checked, and why. */
export function RecordEmpty({ hasUnits, widening }: { hasUnits: boolean; widening: RecordView['widening'] }) {
  return (
    <>
      <PageHeader title="Past projections" />
      <Empty
        title="No past projection can be checked yet"
        actions={
          <ButtonLink href={hasUnits ? '/import' : '/new-unit'} weight="primary">
            {hasUnits ? 'Import older readings' : 'Add a unit'}
          </ButtonLink>
        }
      >
        <p>
          A projection is checked by what came of it: once a cycle has ended, it is projected again from what
          was known at a quarter, half and three quarters of its life.
        </p>
        <p>
          {hasUnits
            ? 'No cycle of these units has ended with enough figures. Older readings, and the cleanings recorded among them, bring cycles to check at once.'
            : 'It begins with a unit, its readings, and the cleanings recorded among them.'}
        </p>
        {widening.length === 0 ? null : <WideningList widening={widening} />}
      </Empty>
    </>
  );
}

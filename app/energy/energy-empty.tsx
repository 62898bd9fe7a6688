import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';

/** What stands here before any unit has a result. */
export function EnergyEmpty({ hasUnits }: { hasUnits: boolean }) {
  return (
    <>
      <PageHeader title="Energy and money" />
      <Empty
        title="Nothing to count yet"
        actions={
          <ButtonLink href={hasUnits ? '/import' : '/new-unit'} weight="primary">
            {hasUnits ? 'Import readings' : 'Add a unit'}
          </ButtonLink>
        }
      >
        <p>
          What dirty exchangers waste stands here in energy, money and CO2e, unit by unit and month by month.
          It needs units, their readings, and what the energy costs: in the datasheet, or as dated prices of
          the site.
        </p>
      </Empty>
    </>
  );
}

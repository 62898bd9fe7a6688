import Link from 'next/link';
import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';

/** The fleet before its first unit: four ways to fill it. */
export function FleetEmpty() {
  return (
    <>
      <PageHeader title="Fleet" />
      <Empty
        title="No units yet"
        actions={
          <>
            <ButtonLink href="/new-unit" weight="primary">
              Add a unit
            </ButtonLink>
            <ButtonLink href="/fleet-sheet">Many units by spreadsheet</ButtonLink>
          </>
        }
      >
        <p>
          Each exchanger becomes a row on a shared time axis: its fouling so far, and the day by which it
          should be cleaned. To begin:
        </p>
        <ul>
          <li>add one unit from its datasheet, then import its readings; or</li>
          <li>
            <Link href="/fleet-sheet">fill in a spreadsheet</Link>, one row per unit; or
          </li>
          <li>
            register a whole fleet from a file: <code>npx cleanby register fleet.json</code>; or
          </li>
          <li>
            look around with made-up units and readings: <code>npm run demo</code>.
          </li>
        </ul>
      </Empty>
    </>
  );
}

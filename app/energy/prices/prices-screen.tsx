import Link from 'next/link';
import { Allowed } from '@/app/access/rights';
import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { PricesView } from '@/lib/report/prices/prices-view';
import { PriceForm } from './price-form';
import styles from './prices.module.css';
import { SupplyTable } from './supply-table';

/** What energy costs and emits at each site, since when, who said so, and which units have no price. */
export function PricesScreen({ view }: { view: PricesView }) {
  if (!view.hasUnits) return <NoUnits />;
  return (
    <>
      <Breadcrumb>
        <Link href="/energy">Energy</Link> / Prices
      </Breadcrumb>
      <PageHeader title="Energy prices and carbon factors">
        <p>
          What fouling costs is the energy bought in its place, at the price of each day. An entry holds from
          its first day until the next one. Nothing is overwritten: a second entry for the same day takes the
          place of the first, and both are kept.
        </p>
      </PageHeader>
      {view.unpriced.length === 0 ? null : <Unpriced rows={view.unpriced} />}
      {view.sites.map((site, index) => (
        <Section
          key={site.name}
          id={`site-${index + 1}`}
          title={site.name}
          lead={
            <p>
              In {site.currency}; days begin at midnight, {site.timeZone}.
            </p>
          }
        >
          {site.supplies.length === 0 ? (
            <p className={styles.none}>
              No supply yet: add one below, and name it in the datasheets of the units that use it.
            </p>
          ) : (
            site.supplies.map((supply) => <SupplyTable key={supply.supply} view={supply} />)
          )}
        </Section>
      ))}
      <Allowed right="price">
        <Section
          id="add"
          title="Add a price or a factor"
          lead={
            <p>The money of every unit that uses the supply is worked out anew, from the first day on.</p>
          }
        >
          <PriceForm key={`${view.form.site} ${view.form.supply}`} form={view.form} />
        </Section>
      </Allowed>
      {view.datasheets.length === 0 ? null : <Datasheets rows={view.datasheets} />}
    </>
  );
}

function Unpriced({ rows }: { rows: PricesView['unpriced'] }) {
  return (
    <Section
      id="unpriced"
      title={`Without a price: ${rows.length}`}
      lead={<p>Their losses count as energy only.</p>}
    >
      <Table
        caption="Units whose lost heat has no price"
        columns={[
          { key: 'tag', head: 'Unit' },
          { key: 'site', head: 'Site' },
          { key: 'reason', head: 'Why' },
          { key: 'remedy', head: 'What to do' },
        ]}
        rowHead="tag"
        rows={rows.map(({ tag, href, site, reason, remedy, remedyHref }) => ({
          key: tag,
          cells: {
            tag: <Link href={href}>{tag}</Link>,
            site,
            reason,
            remedy: <Link href={remedyHref}>{remedy}</Link>,
          },
        }))}
      />
    </Section>
  );
}

function Datasheets({ rows }: { rows: PricesView['datasheets'] }) {
  return (
    <Section
      id="datasheets"
      title="Stated in datasheets"
      lead={<p>A price in a datasheet has no date: it holds until the first day of the unit’s supply.</p>}
    >
      <Table
        caption="Prices and factors that datasheets state"
        columns={[
          { key: 'tag', head: 'Unit' },
          { key: 'site', head: 'Site' },
          { key: 'price', head: 'Price' },
          { key: 'carbon', head: 'Carbon factor' },
          { key: 'until', head: 'Holds' },
        ]}
        rowHead="tag"
        rows={rows.map(({ href, ...row }) => ({
          key: row.tag,
          cells: { ...row, tag: <Link href={href}>{row.tag}</Link> },
        }))}
      />
    </Section>
  );
}

function NoUnits() {
  return (
    <>
      <PageHeader title="Energy prices and carbon factors" />
      <Empty
        title="No site yet"
        actions={
          <ButtonLink href="/new-unit" weight="primary">
            Add a unit
          </ButtonLink>
        }
      >
        <p>
          Prices belong to a site. Add its first unit; then this page takes what its energy costs, by date.
        </p>
      </Empty>
    </>
  );
}

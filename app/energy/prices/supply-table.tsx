import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { PricesView } from '@/lib/report/prices/prices-view';
import styles from './prices.module.css';
import { WithdrawPrice } from './withdraw-price';

type Supply = PricesView['sites'][number]['supplies'][number];

/** Everything stated of one supply, the newest day first, and the units that use it. */
export function SupplyTable({ view }: { view: Supply }) {
  const { supply, rows, usedBy, pumpedBy } = view;
  return (
    <div className={styles.supply}>
      <h3>{supply}</h3>
      <p className={styles.users}>
        {usedBy.length + pumpedBy.length === 0 ? 'No unit names it.' : null}
        <Users label="Makes up for the lost heat of" links={usedBy} />
        <Users label="Drives the pumps of" links={pumpedBy} />
      </p>
      {rows.length === 0 ? (
        <p className={styles.none}>Units name it, and nothing is stated of it yet: add its price below.</p>
      ) : (
        <Table
          caption={`Prices and factors of ${supply}`}
          columns={[
            { key: 'from', head: 'From' },
            { key: 'price', head: 'Price', isNumber: true },
            { key: 'carbon', head: 'Carbon factor', isNumber: true },
            { key: 'given', head: 'Entered' },
            { key: 'note', head: 'Note' },
            { key: 'action', head: <span className="unseen">Take back</span> },
          ]}
          rowHead="from"
          rows={rows.map(({ key, from, price, carbon, given, note, fate, withdrawal }) => ({
            key,
            cells: {
              from,
              price: <Held isHeld={fate === null}>{price}</Held>,
              carbon: <Held isHeld={fate === null}>{carbon}</Held>,
              given,
              note: [note, fate].filter((part) => part).join('; '),
              action: withdrawal === null ? null : <WithdrawPrice entry={withdrawal} from={from} />,
            },
          }))}
        />
      )}
    </div>
  );
}

function Held({ isHeld, children }: { isHeld: boolean; children: string }) {
  return isHeld ? children : <s className={styles.gone}>{children}</s>;
}

function Users({ label, links }: { label: string; links: Supply['usedBy'] }) {
  if (links.length === 0) return null;
  return (
    <span>
      {label}{' '}
      {links.map(({ tag, href }, index) => (
        <span key={tag}>
          {index === 0 ? '' : ', '}
          <Link href={href}>{tag}</Link>
        </span>
      ))}
      .{' '}
    </span>
  );
}

import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { EnergyView } from '@/lib/report/energy/energy-view';
import type { GroupRow } from '@/lib/report/energy/group-rows';
import styles from './energy.module.css';

/** The same sums by site, by what the heat is for, and by service. */
export function WherePart({ view }: { view: EnergyView }) {
  return (
    <Section id="where" title="Where, and what the heat is for">
      <div className={styles.groups}>
        {view.bySite.length < 2 ? null : <GroupTable caption="By site" head="Site" rows={view.bySite} />}
        <GroupTable caption="By what the heat is for" head="Heat is for" rows={view.byEffect} />
      </div>
      <details className={styles.details}>
        <summary>By service</summary>
        <GroupTable caption="By service" head="Service" rows={view.byService} />
      </details>
    </Section>
  );
}

function GroupTable({ caption, head, rows }: { caption: string; head: string; rows: GroupRow[] }) {
  return (
    <Table
      caption={caption}
      columns={[
        { key: 'name', head },
        { key: 'units', head: 'Units', unit: 'counted', isNumber: true },
        { key: 'money', head: 'Cost', isNumber: true },
        { key: 'heat', head: 'Heat', unit: 'not transferred', isNumber: true },
        { key: 'pumping', head: 'Pumping', unit: 'extra', isNumber: true },
        { key: 'carbon', head: 'CO2e', isNumber: true },
        { key: 'days', head: 'Unit-days', unit: 'counted', isNumber: true },
      ]}
      rowHead="name"
      rows={rows.map(({ key, ...cells }) => ({ key, cells }))}
    />
  );
}

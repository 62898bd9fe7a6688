import { Table } from '@/app/ui/table/table';
import type { MonthsView } from '@/lib/report/energy/months-view';

/** The bars as figures, the latest month first. */
export function MonthsTable({ months }: { months: MonthsView }) {
  const { rows, currencies } = months;
  return (
    <Table
      caption="What fouling cost month by month"
      columns={[
        { key: 'name', head: 'Month' },
        { key: 'energy', head: 'Energy', unit: 'heat and pumping', isNumber: true },
        ...currencies.map((currency) => ({ key: currency, head: 'Cost', unit: currency, isNumber: true })),
        { key: 'carbon', head: 'CO2e', isNumber: true },
        { key: 'days', head: 'Unit-days', unit: 'counted', isNumber: true },
      ]}
      rowHead="name"
      rows={rows.toReversed().map(({ month, name, energy, money, carbon, days }) => ({
        key: month,
        cells: {
          name,
          energy,
          carbon,
          days,
          ...Object.fromEntries(currencies.map((currency, index) => [currency, money[index]])),
        },
      }))}
    />
  );
}

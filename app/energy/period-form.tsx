import { Choices } from '@/app/(looking-back)/choices';
import { Button } from '@/app/ui/button/button';
import type { EnergyView } from '@/lib/report/energy/energy-view';
import styles from './period-form.module.css';

/** The period and the site: named periods as links, any other by its first and last day. */
export function PeriodForm({ view }: { view: EnergyView }) {
  const { control, site, sites } = view;
  return (
    <search className={`${styles.period} screen-only`} aria-label="Period and site">
      <Choices label="Period" choices={control.periods} />
      <form className={styles.dates} method="get" key={`${control.from} ${control.to} ${site}`}>
        {Object.entries(control.kept).map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <input
          type="date"
          name="from"
          aria-label="First day"
          defaultValue={control.from}
          max={control.latest}
          required
        />
        <span aria-hidden="true">–</span>
        <input
          type="date"
          name="to"
          aria-label="Last day"
          defaultValue={control.to}
          max={control.latest}
          required
        />
        {sites.length < 2 ? null : (
          <select name="site" aria-label="Site" defaultValue={site ?? ''}>
            <option value="">all sites</option>
            {sites.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        )}
        <Button type="submit" weight="quiet">
          Show
        </Button>
      </form>
    </search>
  );
}

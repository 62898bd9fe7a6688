import { Choices } from '@/app/(looking-back)/choices';
import { PeriodForm } from '@/app/ui/period-form/period-form';
import type { EnergyView } from '@/lib/report/energy/energy-view';
import styles from './period-and-site.module.css';

/** The period and the site: named periods as links, any other by its first and last day. */
export function PeriodAndSite({ view, isOneSiteOnly }: { view: EnergyView; isOneSiteOnly: boolean }) {
  const { control, site, sites } = view;
  return (
    <search className={`${styles.period} screen-only`} aria-label="Period and site">
      <Choices label="Period" choices={control.periods} />
      <PeriodForm period={control}>
        {sites.length < 2 ? null : (
          <select key={site} name="site" aria-label="Site" defaultValue={site ?? ''}>
            {isOneSiteOnly ? null : <option value="">all sites</option>}
            {sites.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        )}
      </PeriodForm>
    </search>
  );
}

import type { SearchParams } from '@/app/ui/preferences';
import type { ShownSite } from '@/lib/report/shown-site';
import { Button } from '../button/button';
import styles from './site-choice.module.css';

/** Which site a page shows that cannot show a large fleet at once; nothing where it can. `given`: the address, kept but for it. */
export function SiteChoice({ shown, given }: { shown: ShownSite; given: SearchParams }) {
  if (!shown.isOneOnly) return null;
  const kept = Object.entries(given).flatMap(([name, value]) =>
    name === 'site' || value === undefined ? [] : [[name, [value].flat()[0] ?? ''] as const],
  );
  return (
    <search className={styles.choice} aria-label="Site">
      <form method="get" className="screen-only">
        {kept.map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <label>
          Site{' '}
          <select key={shown.site} name="site" defaultValue={shown.site ?? undefined}>
            {shown.sites.map((site) => (
              <option key={site}>{site}</option>
            ))}
          </select>
        </label>
        <Button type="submit" weight="quiet">
          Show
        </Button>
      </form>
      <p>{shown.site}: a fleet of this size is shown site by site. The fleet page lists all of its units.</p>
    </search>
  );
}

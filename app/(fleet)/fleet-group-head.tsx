import type { GroupHead } from '@/lib/report/fleet/fleet-index';
import type { FleetView } from '@/lib/report/fleet-view';
import { formatFigureText } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import { placeOutageNames } from '@/lib/report/outage-names';
import styles from './fleet.module.css';
import { placedAt } from './fleet-row-line';

type Props = {
  item: GroupHead;
  view: FleetView;
  axisWidth: number;
  top: number | null;
};

/** Head of a group: its name, how many, what they lose together, and the names of its site's outages over their bands. */
export function FleetGroupHead({ item, view, axisWidth, top }: Props) {
  const outages = view.sites.length > 1 ? view.outages.filter((outage) => outage.site === item.name) : [];
  return (
    <li className={`${styles.group} ${styles.columns}`} style={placedAt(top)}>
      <h2>{item.name}</h2>
      <div className={styles.scale}>
        {placeOutageNames(outages, view.now, axisWidth).map((name) => (
          <span
            key={`${name.at}${name.text}`}
            className={name.endsThere ? `${styles.groupName} ${styles.endsThere}` : styles.groupName}
            style={{ left: `${name.at * 100}%`, bottom: `${name.lane * 0.85}rem` }}
          >
            {name.text}
          </span>
        ))}
      </div>
      <span className={styles.groupSum}>
        {countOf(item.units, 'unit')}
        {item.lostDuty === null ? '' : `, ${formatFigureText(item.lostDuty, 'power', view.system)} lost`}
      </span>
    </li>
  );
}

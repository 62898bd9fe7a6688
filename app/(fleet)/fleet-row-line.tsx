import Link from 'next/link';
import { memo } from 'react';
import { StateShape } from '@/app/ui/state-mark/state-mark';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import { toDisplay } from '@/lib/report/format/display-unit';
import { currencySign, formatMoney, formatNumber, MISSING } from '@/lib/report/format/figure';
import { STATE_WORDS } from '@/lib/report/format/words';
import styles from './fleet.module.css';
import { RowPicture } from './row-picture';

type Props = {
  row: FleetRow;
  rank: number;
  total: number;
  view: FleetView;
  /** Distance from the top of the list [px]; null where rows simply follow one another. */
  top: number | null;
  index: number;
  isTabStop: boolean;
  /** What the address passes on to the unit. */
  query: string;
  onFocus: (row: FleetRow) => void;
};

/** One unit: name, picture, share used, clean-by day in words, what it loses. The whole row opens the unit. */
export const FleetRowLine = memo(function FleetRowLine(props: Props) {
  const { row, rank, total, view, top, index, isTabStop, query, onFocus } = props;
  const isCalm = row.state === 'clean' || row.state === 'fouling';
  return (
    <li
      className={`${styles.row} ${styles.columns}`}
      style={placedAt(top)}
      aria-posinset={rank}
      aria-setsize={total}
      data-state={row.state}
    >
      <div className={styles.name}>
        <span className={styles.rank} aria-hidden="true">
          {rank}
        </span>
        <Link
          className={styles.tag}
          href={`/units/${encodeURIComponent(row.tag)}${query}`}
          prefetch={false}
          data-index={index}
          tabIndex={isTabStop ? 0 : -1}
          onFocus={() => onFocus(row)}
          aria-label={row.sentence}
          title={tipOf(row)}
        >
          {row.tag}
        </Link>
        <span className={styles.service}>{row.service}</span>
      </div>
      <div className={styles.picture}>
        <RowPicture row={row} view={view} />
        <div className={styles.mini} aria-hidden="true">
          <span>{view.ends[0]}</span>
          <span className={styles.miniToday} style={{ left: `${view.now * 100}%` }}>
            today
          </span>
          <span>{view.ends[1]}</span>
        </div>
      </div>
      <div className={styles.used}>
        {row.used === null ? MISSING : `${Math.round(row.used * 100)} %`}
        {row.usedUncertainty === null ? null : (
          <span className={styles.spread}> ± {Math.ceil(row.usedUncertainty * 100)}</span>
        )}
      </div>
      <div className={`${styles.cleanBy} ${styles[row.state]}`}>
        <span className={styles.main}>
          {isCalm ? null : <StateShape state={row.state} size={10} />} {row.cleanBy.main}
        </span>
        <span className={styles.detail}>
          {row.state === 'near-limit' ? <b>{STATE_WORDS[row.state]} · </b> : null}
          {row.cleanBy.detail}
        </span>
      </div>
      <div className={styles.number}>
        <span className="unseen">lost duty </span>
        {row.lostDuty === null
          ? MISSING
          : formatNumber(toDisplay(row.lostDuty, view.lostUnit), view.lostDecimals)}
        <span className={styles.cardUnit}> {view.lostUnit.label} lost</span>
      </div>
      <div className={styles.number}>
        <span className="unseen">cost per day </span>
        {moneyOf(row, view)}
        <span className={styles.cardUnit}>
          {' '}
          {view.currency === null ? '' : currencySign(view.currency)}/day
        </span>
      </div>
    </li>
  );
});

/** The style of an item of a list of which only a part is in the page. */
export function placedAt(top: number | null) {
  return top === null ? undefined : { transform: `translateY(${top}px)` };
}

/** What the marks of the row say: the link covers them, so its tip must. */
function tipOf({ probable, suspect, widened }: FleetRow): string | undefined {
  const words = [...probable.map((fall) => fall.words), suspect?.words ?? '', widened ?? ''];
  return words.filter((part) => part !== '').join('\n') || undefined;
}

function moneyOf(row: FleetRow, view: FleetView): string {
  if (row.perDay === null) return MISSING;
  return view.currency === null ? formatMoney(row.perDay, row.currency) : formatNumber(row.perDay, 0);
}

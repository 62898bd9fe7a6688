import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import type { CSSProperties } from 'react';
import { StateShape } from '@/app/ui/state-mark/state-mark';
import type { FleetItem } from '@/lib/report/fleet-order';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import { toDisplay } from '@/lib/report/format/display-unit';
import {
  currencySign,
  formatFigureText,
  formatMoney,
  formatNumber,
  MISSING,
} from '@/lib/report/format/figure';
import { countOf, STATE_WORDS } from '@/lib/report/format/words';
import { placeOutageNames } from '@/lib/report/outage-names';
import styles from './fleet.module.css';
import { RowPicture } from './row-picture';

type Props = {
  row: FleetRow;
  rank: number;
  total: number;
  view: FleetView;
  style: CSSProperties | undefined;
  index: number;
  isTabStop: boolean;
  onFocus: () => void;
};

/** One unit: name, picture, share used, clean-by day in words, what it loses. The whole row opens the unit. */
export function FleetRowLine({ row, rank, total, view, style, index, isTabStop, onFocus }: Props) {
  const units = useSearchParams().get('units');
  const isCalm = row.state === 'clean' || row.state === 'fouling';
  return (
    <li
      className={`${styles.row} ${styles.columns}`}
      style={style}
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
          href={`/units/${encodeURIComponent(row.tag)}${units === null ? '' : `?units=${units}`}`}
          prefetch={false}
          data-index={index}
          tabIndex={isTabStop ? 0 : -1}
          onFocus={onFocus}
          aria-label={row.sentence}
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
}

function moneyOf(row: FleetRow, view: FleetView): string {
  if (row.perDay === null) return MISSING;
  return view.currency === null ? formatMoney(row.perDay, row.currency) : formatNumber(row.perDay, 0);
}

type GroupProps = {
  item: Extract<FleetItem, { kind: 'group' }>;
  view: FleetView;
  style: CSSProperties | undefined;
};

/** Head of a group: its name, how many, what they lose together, and the names of its site's outages over their bands. */
export function FleetGroupHead({ item, view, style }: GroupProps) {
  const duty = item.rows.reduce((sum, row) => sum + (row.lostDuty ?? 0), 0);
  const isKnown = item.rows.some((row) => row.lostDuty !== null);
  const outages = view.sites.length > 1 ? view.outages.filter((outage) => outage.site === item.name) : [];
  return (
    <li className={`${styles.group} ${styles.columns}`} style={style}>
      <h2>{item.name}</h2>
      <div className={styles.scale}>
        {placeOutageNames(outages, view.now).map((name) => (
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
        {countOf(item.rows.length, 'unit')}
        {isKnown ? `, ${formatFigureText(duty, 'power', view.system)} lost` : ''}
      </span>
    </li>
  );
}

import { StateShape } from '@/app/ui/state-mark/state-mark';
import type { FleetRow } from '@/lib/report/fleet-row';
import { ACROSS, DOWN, heightOf } from '@/lib/report/fleet-trace';
import type { FleetView } from '@/lib/report/fleet-view';
import styles from './picture.module.css';

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;
const BAR_HEIGHT = 8;
const TRIANGLE = 'M0 -4.5 4 2.5 -4 2.5Z';
/** A step down that ends in an arrow: a fall nobody has explained. */
const STEP_DOWN = 'M-5 -4.5H0V3M-3 0 0 3.5 3 0';

/** Fills the pictures share; kept out of sight, not `display: none`, which would switch them off. */
export function PictureDefs() {
  return (
    <svg className={styles.defs} aria-hidden="true">
      <title>fills</title>
      <defs>
        <linearGradient id="fleet-band">
          <stop offset="0" className={styles.bandNear} />
          <stop offset="1" className={styles.bandFar} />
        </linearGradient>
        <linearGradient id="fleet-open">
          <stop offset="0" className={styles.openNear} />
          <stop offset="1" className={styles.openFar} />
        </linearGradient>
        <pattern
          id="fleet-hatch"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2="6" className={styles.hatch} />
        </pattern>
      </defs>
    </svg>
  );
}

type PictureFrame = Pick<FleetView, 'scale' | 'outages' | 'now'>;

/** One unit between past and future: fouling cycle by cycle, projection, clean-by bar, cleanings, outages, absent data. */
export function RowPicture({ row, view }: { row: FleetRow; view: PictureFrame }) {
  const limit = `${heightOf(1, view.scale)}%`;
  return (
    <svg className={styles.picture} aria-hidden="true">
      <title>{row.tag}</title>
      {view.outages
        .filter((outage) => outage.site === row.site)
        .map((outage) => (
          <rect
            key={outage.words}
            className={styles.outage}
            x={percent(outage.from)}
            width={percent(Math.max(outage.to - outage.from, 0.001))}
            height="100%"
          >
            <title>{outage.words}</title>
          </rect>
        ))}
      {row.absence === null || row.absence.from === null ? null : (
        <rect
          fill="url(#fleet-hatch)"
          x={percent(row.absence.from)}
          width={percent(Math.max(view.now - row.absence.from, 0.002))}
          y="12%"
          height="76%"
        />
      )}
      <line className={styles.limit} x1="0" x2="100%" y1={limit} y2={limit} />
      <svg
        viewBox={`0 0 ${ACROSS} ${DOWN}`}
        preserveAspectRatio="none"
        width="100%"
        height="100%"
        aria-hidden="true"
      >
        <title>fouling</title>
        {row.band === null ? null : <path d={row.band} fill="url(#fleet-band)" />}
        {row.trace.solid === '' ? null : <path className={styles.solid} d={row.trace.solid} />}
        {row.trace.dashed === '' ? null : <path className={styles.dashed} d={row.trace.dashed} />}
      </svg>
      <line className={styles.now} x1={percent(view.now)} x2={percent(view.now)} y1="0" y2="100%" />
      <Bar row={row} limit={limit} />
      {row.cleanings.map((cleaning) => (
        <svg key={cleaning.words} x={percent(cleaning.at)} y="93%" overflow="visible" aria-hidden="true">
          <title>{cleaning.words}</title>
          <path className={cleaning.isPlanned ? styles.planned : styles.cleaning} d={TRIANGLE} />
        </svg>
      ))}
      {row.probable.map((fall) => (
        <svg key={fall.words} x={percent(fall.at)} y="92%" overflow="visible" aria-hidden="true">
          <title>{fall.words}</title>
          <path className={styles.probable} d={STEP_DOWN} />
        </svg>
      ))}
      {row.suspect === null ? null : <Suspect suspect={row.suspect} used={row.used ?? 0} now={view.now} />}
      <EndMark row={row} />
      {row.absence === null ? null : (
        <text className={styles.absence} x={percent(row.absence.at)} y="86%" dx="8">
          {row.state === 'no-data' && row.end !== null ? '' : '✕ '}
          {row.absence.text}
        </text>
      )}
    </svg>
  );
}

type SuspectProps = { suspect: NonNullable<FleetRow['suspect']>; used: number; now: number };

/** Data that may mislead: ≠ and words where it began, out of the way of the trace; dotted along the foot from there to now. */
function Suspect({ suspect, used, now }: SuspectProps) {
  return (
    <>
      <line className={styles.suspectLine} x1={percent(suspect.at)} x2={percent(now)} y1="97%" y2="97%" />
      <text
        className={styles.suspect}
        x={percent(suspect.at)}
        y={used < 0.5 ? '42%' : '86%'}
        textAnchor={suspect.at > 0.7 ? 'end' : 'start'}
      >
        ≠ {suspect.words}
      </text>
    </>
  );
}

function Bar({ row, limit }: { row: FleetRow; limit: string }) {
  if (row.bar === null) return null;
  const { from, to, tick, isOpen, isPast } = row.bar;
  const kind =
    row.state === 'over-limit' ? styles.barOver : row.state === 'near-limit' ? styles.barNear : styles.bar;
  const isOpenGrey = isOpen && row.state !== 'near-limit';
  return (
    <svg y={limit} overflow="visible" aria-hidden="true">
      <title>{row.cleanBy.main}</title>
      <rect
        className={isOpenGrey ? undefined : kind}
        fill={isOpenGrey ? 'url(#fleet-open)' : undefined}
        x={percent(from)}
        width={percent(Math.max(to - from, 0.003))}
        y={-BAR_HEIGHT / 2}
        height={BAR_HEIGHT}
      />
      {tick === null || isPast ? null : (
        <line
          className={styles.tick}
          x1={percent(tick)}
          x2={percent(tick)}
          y1={-BAR_HEIGHT / 2 - 2}
          y2={BAR_HEIGHT / 2 + 2}
        />
      )}
    </svg>
  );
}

/** The last figure: a dot while all is calm, else the shape of the state. */
function EndMark({ row }: { row: FleetRow }) {
  if (row.end === null) return null;
  const place = { x: percent(row.end.x), y: percent(row.end.y) };
  const isCalm = row.state === 'clean' || row.state === 'fouling';
  return (
    <svg {...place} overflow="visible" aria-hidden="true">
      <title>last figure</title>
      {isCalm ? (
        <circle className={styles.endDot} r="2.2" />
      ) : (
        <svg x="-5" y="-5" width="10" height="10" overflow="visible" aria-hidden="true">
          <title>{row.state}</title>
          <StateShape state={row.state} size={10} />
        </svg>
      )}
    </svg>
  );
}

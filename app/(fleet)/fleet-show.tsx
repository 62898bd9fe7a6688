import { Choice } from '@/app/ui/choice/choice';
import { Pick } from '@/app/ui/choice/pick';
import { DownloadLink } from '@/app/ui/download-link/download-link';
import { type FleetAddress, MONTHS_AHEAD, MONTHS_BACK } from '@/lib/report/fleet-address';
import type { FleetView } from '@/lib/report/fleet-view';
import styles from './toolbar.module.css';
import type { ChangeAddress } from './use-fleet-address';

type Props = { view: FleetView; query: string; address: FleetAddress; change: ChangeAddress };

const VIEWS = [
  { value: 'axis', label: 'Axis' },
  { value: 'table', label: 'Table' },
] as const;

const months = (choices: readonly number[], word: string) =>
  choices.map((count) => ({ value: String(count), label: `${count} mo ${word}` }));

/** What is shown and how: period, picture or table, export. */
export function FleetShow({ view, query, address, change }: Props) {
  return (
    <span className={`${styles.show} screen-only`}>
      <Pick
        label="Back"
        isLabelHidden
        options={months(MONTHS_BACK, 'back')}
        value={String(address.back)}
        onPick={(back) => change({ back: Number(back) as FleetAddress['back'] })}
      />
      <Pick
        label="Ahead"
        isLabelHidden
        options={months(MONTHS_AHEAD, 'ahead')}
        value={String(address.ahead)}
        onPick={(ahead) => change({ ahead: Number(ahead) as FleetAddress['ahead'] })}
      />
      <Choice
        label="View"
        options={VIEWS}
        value={address.view}
        onChoose={(chosen) => change({ view: chosen })}
      />
      <DownloadLink href={`/api/fleet/rows?${query}&units=${view.system}&format=csv`} of="the units shown" />
    </span>
  );
}

import { Button } from '@/app/ui/button/button';
import { Choice } from '@/app/ui/choice/choice';
import { Pick } from '@/app/ui/choice/pick';
import { type FleetAddress, MONTHS_AHEAD, MONTHS_BACK } from '@/lib/report/fleet-address';
import { fleetCsv } from '@/lib/report/fleet-csv';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import styles from './toolbar.module.css';
import type { ChangeAddress } from './use-fleet-address';

type Props = { view: FleetView; shown: FleetRow[]; address: FleetAddress; change: ChangeAddress };

const VIEWS = [
  { value: 'axis', label: 'Axis' },
  { value: 'table', label: 'Table' },
] as const;

const months = (choices: readonly number[], word: string) =>
  choices.map((count) => ({ value: String(count), label: `${count} mo ${word}` }));

/** What is shown and how: period, picture or table, export. */
export function FleetShow({ view, shown, address, change }: Props) {
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
      <Button weight="quiet" onClick={() => download(shown, view)}>
        CSV
        <span className="unseen"> of the units shown</span>
      </Button>
    </span>
  );
}

function download(rows: FleetRow[], view: FleetView) {
  const url = URL.createObjectURL(
    new Blob([fleetCsv(rows, view.lostUnit)], { type: 'text/csv;charset=utf-8' }),
  );
  const link = document.createElement('a');
  link.href = url;
  link.download = `cleanby-fleet-${view.today.replaceAll(' ', '-')}.csv`;
  link.click();
  URL.revokeObjectURL(url);
}

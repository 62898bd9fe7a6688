import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { CheckFlow } from './check-flow';
import styles from './fleet-sheet.module.css';

type Props = { unitCount: number; system: UnitSystem };

/** Units described in a spreadsheet: the workbook down, filled in, and back. */
export function FleetSheetScreen({ unitCount, system }: Props) {
  return (
    <>
      <PageHeader title="Units by spreadsheet">
        <p>
          One row per unit, filled in from the datasheets by whoever has them. The workbook is checked cell by
          cell first; then all of its units are registered, or none.
        </p>
      </PageHeader>
      <Section id="download" title="1. Take the workbook">
        <ul className={styles.downloads}>
          <li>
            <a href={`/api/v1/fleet?format=xlsx&with=template&measures=${system}`} download>
              Template to fill in (XLSX)
            </a>
            <span className={styles.faint}>
              with an example row, and a sheet that says what each column means
            </span>
          </li>
          {unitCount === 0 ? null : (
            <li>
              <a href={`/api/v1/fleet?format=xlsx&with=units&measures=${system}`} download>
                The fleet as it is (XLSX)
              </a>
              <span className={styles.faint}>
                {countOf(unitCount, 'unit')} to change or to add to; what you leave alone stays as it is
              </span>
            </li>
          )}
        </ul>
      </Section>
      <Section
        id="send"
        title="2. Send it back"
        lead="It is only looked at; nothing is registered until you say so."
      >
        <CheckFlow />
      </Section>
    </>
  );
}

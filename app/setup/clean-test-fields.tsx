'use client';

import { SENSOR_WORDS } from '@/lib/report/format/words';
import { CLEAN_TEST_SENSORS } from '@/lib/report/setup/unit-draft';
import { QuantityField } from './fields';
import styles from './setup.module.css';
import { useSetup } from './setup-context';
import { TimeField } from './time-field';

/** Readings of one test of the clean unit. */
export function CleanTestFields() {
  const { draft } = useSetup();
  return (
    <>
      <p className={styles.wholeSaid}>
        One reading on the day the unit was known to be clean. One of the six values may be left out: it then
        follows from the heat balance.
      </p>
      <TimeField path="cleanTest.at" label="Taken at" hint={`Optional: local time, ${draft.site.timeZone}`} />
      {CLEAN_TEST_SENSORS.map((sensor) => (
        <div key={sensor} className={styles.named}>
          <QuantityField
            path={`cleanTest.${sensor}`}
            kind={sensor.endsWith('Flow') ? 'flow' : 'temperature'}
            label={SENSOR_WORDS[sensor]}
          />
        </div>
      ))}
    </>
  );
}

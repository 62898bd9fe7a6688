import { Allowed } from '@/app/access/rights';
import { Section } from '@/app/ui/section/section';
import type { CleaningForm as Form } from '@/lib/report/unit-view';
import { CleaningForm } from './cleaning-form';
import styles from './unit.module.css';

/** Records a cleaning that was done: a fact that begins a new cycle. */
export function CleaningSection({ form }: { form: Form }) {
  return (
    <Allowed right="clean">
      <div className="screen-only">
        <Section
          id="cleaning"
          title="Record a cleaning"
          lead={<p>A recorded cleaning ends the running cycle and begins a new one.</p>}
        >
          <p className={styles.caution}>
            <strong>Opening, draining or chemically cleaning equipment can kill.</strong> Isolate,
            depressurise, drain, cool, and verify before opening. Check that the cleaning chemical suits the
            materials and what is left inside. Follow local codes, the maker’s instructions and licensed
            practice. Results here inform a decision; they replace no inspection.
          </p>
          <CleaningForm form={form} />
        </Section>
      </div>
    </Allowed>
  );
}

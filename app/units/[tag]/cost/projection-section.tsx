import { Button } from '@/app/ui/button/button';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { CostProjection } from '@/lib/report/unit-cost/cost-projection';
import styles from './cost.module.css';

type Props = { projection: CostProjection; kept: Record<string, string> };

/** What is lost up to any chosen day if the unit is left as it is; the day stands in the address. */
export function ProjectionSection({ projection, kept }: Props) {
  const { until, earliest, latest, rows, note } = projection;
  return (
    <Section id="projected" title="What is projected, if left as it is" lead={<p>{note}</p>}>
      {rows.length === 0 ? null : (
        <>
          <form
            className={`${styles.until} screen-only`}
            method="get"
            action="#projected"
            key={until}
            aria-label="Projected until"
          >
            {Object.entries(kept).map(([name, value]) => (
              <input key={name} type="hidden" name={name} value={value} />
            ))}
            <label htmlFor="until">Until</label>
            <input
              id="until"
              type="date"
              name="until"
              defaultValue={until}
              min={earliest}
              max={latest}
              required
            />
            <Button type="submit" weight="quiet">
              Show
            </Button>
          </form>
          <div className={styles.table}>
            <Table
              caption="Projected losses"
              columns={[
                { key: 'label', head: 'Period' },
                { key: 'heat', head: 'Heat not transferred', isNumber: true },
                { key: 'pumping', head: 'Extra pumping', isNumber: true },
                { key: 'money', head: 'Money', isNumber: true },
                { key: 'carbon', head: 'CO₂e', isNumber: true },
              ]}
              rowHead="label"
              rows={rows.map(({ key, ...cells }) => ({ key, cells }))}
            />
          </div>
        </>
      )}
    </Section>
  );
}

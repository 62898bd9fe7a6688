import { ChartFigure } from '@/app/ui/chart/chart-figure';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { CostCurve } from '@/lib/report/unit-cost/cost-curve';
import styles from './cost.module.css';

const HEIGHT = 280;

type Props = { curve: CostCurve; isTable: boolean; toggleHref: string; fileName: string };

/** When cleaning is cheapest, and how little it matters: mean cost of the cycle by cleaning day, and what it is made of. */
export function CurveSection({ curve, isTable, toggleHref, fileName }: Props) {
  return (
    <Section
      id="curve"
      title="When cleaning costs least"
      lead={
        <p>
          {curve.statement} {curve.flat} {curve.outage}
        </p>
      }
    >
      <ChartFigure
        view={curve.chart}
        height={HEIGHT}
        isTable={isTable}
        toggleHref={toggleHref}
        pickHref={null}
        fileName={fileName}
      />
      <div className={styles.parts}>
        <Table
          caption="What the curve is made of"
          columns={[
            { key: 'label', head: 'What' },
            { key: 'value', head: 'How much', isNumber: true },
            { key: 'whence', head: 'Where it comes from' },
          ]}
          rowHead="label"
          rows={curve.parts.map((part) => ({ key: part.label, cells: part }))}
        />
      </div>
      <p className={styles.caution}>
        <strong>The cheapest day is no permit.</strong> Limits, outages and safety come first: isolate,
        depressurise, drain, cool and verify before opening, and follow local codes, the maker’s instructions
        and licensed practice.
      </p>
    </Section>
  );
}

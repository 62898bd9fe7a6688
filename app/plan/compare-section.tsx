import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import { currencySign, formatNumber, MISSING } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import { type ComparedRule, compareRules } from '@/lib/report/plan/compare-rules';
import { changeInWords } from '@/lib/report/plan/plan-words';
import { percent } from './percent';
import styles from './plan.module.css';
import type { Stage } from './stage';

/** The plan beside plain rules on the same inputs: what they cost, what they would break. */
export function CompareSection({ stage: { view, desk, board } }: { stage: Stage }) {
  const { base, price, isChanged } = board;
  if (base === null) return null;
  const unit = currencySign(desk.currency);
  const money = (amount: number | undefined) => (amount === undefined ? MISSING : formatNumber(amount, 0));
  const when = base.kind === 'accepted' ? ' These are the figures of the day the plan was accepted.' : '';
  const rules = compareRules(base.result, { price, isChanged });
  return (
    <Section
      id="compared"
      title="Compared with plain rules"
      lead={`The same units, prices and calendar over ${view.request.weeks} weeks, losses at inlets, flows and load as of late.${when}`}
    >
      <Table
        caption="The plan and plain rules: cost by part, and what each would break"
        columns={[
          { key: 'name', head: 'Rule' },
          { key: 'bar', head: 'In all', unit },
          { key: 'more', head: 'Against the plan', isNumber: true },
          { key: 'cleaning', head: 'Cleaning', unit, isNumber: true },
          { key: 'downtime', head: 'Downtime', unit, isNumber: true },
          { key: 'loss', head: 'Expected loss', unit, isNumber: true },
          { key: 'count', head: 'Cleanings', isNumber: true },
          { key: 'broken', head: 'Would break' },
        ]}
        rows={rules.map((rule) => ({
          key: rule.key,
          cells: {
            name: rule.name,
            bar: <TotalBar rule={rule} />,
            more: rule.more === null ? MISSING : changeInWords(rule.more, desk.currency),
            cleaning: money(rule.cost?.cleaning),
            downtime: money(rule.cost?.downtime),
            loss: money(rule.cost?.loss),
            count: rule.total === null ? MISSING : formatNumber(rule.cleanings, 0),
            broken: <Broken rule={rule} />,
          },
        }))}
        rowHead="name"
      />
      <ul className={styles.rules}>
        {rules.map(({ key, name, does }) =>
          does === null ? null : (
            <li key={key}>
              {name}: {does}.
            </li>
          ),
        )}
      </ul>
    </Section>
  );
}

function TotalBar({ rule }: { rule: ComparedRule }) {
  if (rule.total === null) return <>cannot be followed</>;
  return (
    <span className={styles.total}>
      <span className={styles.totalBar} style={{ width: percent(rule.share) }} aria-hidden="true" />
      {formatNumber(rule.total, 0)}
    </span>
  );
}

/** Shown in full up to so many; the rest is counted. */
const MOST_BROKEN = 2;

function Broken({ rule: { broken } }: { rule: ComparedRule }) {
  if (broken.length === 0) return <>nothing</>;
  return (
    <>
      {broken.slice(0, MOST_BROKEN).join('; ')}
      {broken.length > MOST_BROKEN ? `; ${countOf(broken.length - MOST_BROKEN, 'more', 'more')}` : ''}
    </>
  );
}

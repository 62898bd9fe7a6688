import Link from 'next/link';
import { Allowed } from '@/app/access/rights';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { JudgingView } from '@/lib/report/unit/judging-view';
import styles from './judging.module.css';
import { JudgingForm } from './judging-form';
import { WithdrawForm } from './withdraw-form';

/** A person's word over the checks: a period left out or counted in, and everything people said before. */
export function JudgingSection({ judging, hasReadings }: { judging: JudgingView; hasReadings: boolean }) {
  const { history, filledWith, ...form } = judging;
  if (!hasReadings && history.length === 0) return null;
  return (
    <div className={history.length === 0 ? 'screen-only' : ''}>
      <Section
        id="judging"
        title="Judged by people"
        lead={
          <p>
            The checks judge every reading; a person who knows better overrules them for a period. Nothing is
            deleted: every word is kept with its name and can be withdrawn.
          </p>
        }
      >
        <Allowed right="judge">
          <div className={`${styles.form} screen-only`}>
            <h3>Leave out or count in a period</h3>
            <p className={styles.note}>{filledWith}</p>
            <JudgingForm key={`${form.from} ${form.to}`} {...form} />
          </div>
        </Allowed>
        {history.length === 0 ? null : <History tag={form.tag} rows={history} />}
      </Section>
    </div>
  );
}

function History({ tag, rows }: { tag: string; rows: JudgingView['history'] }) {
  return (
    <div className={styles.history}>
      <h3>What people said</h3>
      <Table
        caption="What people said of the record, newest first"
        columns={[
          { key: 'about', head: 'About' },
          { key: 'said', head: 'Said' },
          { key: 'note', head: 'Why' },
          { key: 'who', head: 'By' },
          { key: 'standing', head: 'Standing' },
          { key: 'withdraw', head: <span className="unseen">Withdraw</span> },
        ]}
        rowHead="about"
        rows={rows.map((row) => ({
          key: row.key,
          cells: {
            about: (
              <Link href={row.showHref} aria-label={`${row.about}: show on the charts`}>
                {row.about}
              </Link>
            ),
            said: row.said,
            note: row.note,
            who: (
              <>
                {row.by}
                <span className={styles.when}>{row.given}</span>
              </>
            ),
            standing: row.standing,
            withdraw:
              row.withdraw === null ? null : (
                <span className="screen-only">
                  <WithdrawForm tag={tag} {...row.withdraw} what={`${row.said}, ${row.about}`} />
                </span>
              ),
          },
        }))}
      />
    </div>
  );
}

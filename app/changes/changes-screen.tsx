import Link from 'next/link';
import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { ChangesView } from '@/lib/report/changes/changes-view';
import { ChangeLine } from './change-line';
import styles from './changes.module.css';
import { ChangesFilter } from './changes-filter';

/** Who changed what and when, the newest first; each line opens to how it stood before and after. */
export function ChangesScreen({ view }: { view: ChangesView }) {
  const { rows, count, isFiltered, csvHref, newestHref, olderHref } = view;
  return (
    <>
      <PageHeader
        title="Changes"
        context={isFiltered ? `${count} of what is asked for` : count}
        actions={
          rows.length === 0 ? null : (
            <a className={`${styles.file} screen-only`} href={csvHref} download>
              CSV<span className="unseen"> of these changes</span>
            </a>
          )
        }
      >
        <p>
          Written down with each change, and never altered afterwards. Times are those of the unit or site;
          whatever belongs to none is told in {view.zone}.
        </p>
      </PageHeader>
      <ChangesFilter view={view} />
      {rows.length === 0 ? (
        <NoChanges isFiltered={isFiltered} />
      ) : (
        <ul className={styles.list} aria-label="Changes, the newest first">
          {rows.map((row) => (
            <ChangeLine key={row.id} row={row} />
          ))}
        </ul>
      )}
      <nav className={`${styles.pages} screen-only`} aria-label="Pages">
        {newestHref === null ? null : <Link href={newestHref}>Newest</Link>}
        {olderHref === null ? null : <Link href={olderHref}>Older</Link>}
      </nav>
    </>
  );
}

function NoChanges({ isFiltered }: { isFiltered: boolean }) {
  if (!isFiltered) {
    return (
      <Empty title="No change yet" actions={null}>
        <p>
          From the first unit, cleaning or import on, every change is written down here: who made it, when,
          and how it stood before.
        </p>
      </Empty>
    );
  }
  return (
    <Empty title="No such change" actions={<ButtonLink href="/changes">Show all changes</ButtonLink>}>
      <p>Nothing that is asked for above has been changed. Ask for another period, person or thing.</p>
    </Empty>
  );
}

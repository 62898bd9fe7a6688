import { CAUTION_HEAD, CAUTIONS } from '@/lib/report/plan/cautions';
import { NOT_STATED, SHEET_BOXES, type WorkSheet } from '@/lib/report/work-list/work-sheets';
import styles from './sheets.module.css';

/** One cleaning as the crew takes it along: what, when, what is inside, how to make it safe, boxes to sign. */
export function Sheet({ sheet }: { sheet: WorkSheet }) {
  const { row, streams, isolation, compatibility } = sheet;
  const id = `sheet-${row.id}`;
  return (
    <section className={styles.sheet} aria-labelledby={id}>
      <h2 id={id}>
        Clean {row.tag}
        {row.service === '' ? null : <span className={styles.service}>{row.service}</span>}
      </h2>
      <dl className={styles.facts}>
        <Fact name="Out of service" words={`${row.when} (${row.timeZone})`} />
        <Fact name="Where" words={`${row.site}, ${row.place}`} />
        <Fact name="Method" words={row.method} />
        <Fact name="Crew" words={`${row.crew} of work`} />
        <Fact name="Why" words={row.reason} />
        {streams.map(({ side, fluid, temperatures, pressure }) => (
          <Fact
            key={side}
            name={side}
            words={`${fluid}; ${temperatures}; pressure ${pressure} (design figures, as stated)`}
          />
        ))}
        <Note name="Isolation" words={isolation} />
        <Note name="Chemical compatibility" words={compatibility} />
      </dl>
      <p className={styles.caution}>
        <strong>{CAUTION_HEAD}</strong> {CAUTIONS.join(' ')}
      </p>
      <ul className={styles.boxes}>
        {SHEET_BOXES.map((words) => (
          <li key={words}>
            <span className={styles.box} aria-hidden="true" />
            <span>{words}</span>
            <span className={styles.sign}>Name, time:</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Fact({ name, words }: { name: string; words: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{words}</dd>
    </div>
  );
}

/** A note of the datasheet; where it has none, a line to write on. */
function Note({ name, words }: { name: string; words: string | null }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {words ?? (
          <>
            {NOT_STATED}
            <span className={styles.line} aria-hidden="true" />
          </>
        )}
      </dd>
    </div>
  );
}

import styles from './work.module.css';

const FILES = [
  { format: 'ics', label: 'Calendar', what: 'iCalendar' },
  { format: 'csv', label: 'CSV', what: 'rows' },
  { format: 'xlsx', label: 'XLSX', what: 'spreadsheet' },
] as const;

/** The work list as files. */
export function Downloads() {
  return (
    <span className={`${styles.downloads} screen-only`}>
      {FILES.map(({ format, label, what }) => (
        <a key={format} href={`/api/v1/plan/work?format=${format}`} download>
          {label}
          <span className="unseen"> of the work list, {what}</span>
        </a>
      ))}
    </span>
  );
}

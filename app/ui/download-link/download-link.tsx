import styles from './download-link.module.css';

/** A file to be saved: what the page shows, and what it leaves out for room. */
export function DownloadLink({ href, of }: { href: string; of: string }) {
  return (
    <a className={`${styles.link} screen-only`} href={href} download>
      CSV<span className="unseen"> of {of}</span>
    </a>
  );
}

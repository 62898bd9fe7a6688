import { Button } from '@/app/ui/button/button';
import { fileSize } from './file-size';
import styles from './import.module.css';

/** How much was sent; the readings are stored when all of it is in, and results follow. */
export function SendPanel({ size, sent, onCancel }: { size: number; sent: number; onCancel: () => void }) {
  const isSent = sent >= size;
  return (
    <div className={styles.sending}>
      <p role="status">{isSent ? 'Storing the readings and working out the results …' : 'Sending …'}</p>
      <progress max={size} value={isSent ? undefined : sent} aria-label="Bytes sent" />
      <p className={styles.faint}>
        {fileSize(Math.min(sent, size))} of {fileSize(size)} sent. A cancelled import leaves nothing behind.
      </p>
      {isSent ? null : <Button onClick={onCancel}>Cancel the import</Button>}
    </div>
  );
}

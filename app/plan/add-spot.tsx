import type { MouseEvent } from 'react';
import styles from './cleaning-bar.module.css';
import type { Stage } from './stage';

/** The empty part of a unit's row, while cleanings are added by clicking: one comes to the place nearest to the click. */
export function AddSpot({ stage, unit, tag }: { stage: Stage; unit: number; tag: string }) {
  const { span } = stage.view;
  const onClick = (event: MouseEvent<HTMLButtonElement>) => {
    const { left, width } = event.currentTarget.getBoundingClientRect();
    // Pressed by other means than a pointer it has no place on the axis.
    const isPointed = event.detail > 0;
    const day = span.from + ((event.clientX - left) / width) * (span.to - span.from);
    stage.moves.add(unit, isPointed ? day : undefined);
  };
  return (
    <button
      type="button"
      tabIndex={-1}
      className={styles.addSpot}
      aria-label={`Add a cleaning of ${tag} at a place in its row`}
      title="Click to add a cleaning here"
      onClick={onClick}
    />
  );
}

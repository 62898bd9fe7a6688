import type { CSSProperties, KeyboardEvent } from 'react';
import { optionAt, type Spot, tagAt } from '@/lib/report/plan/plan-desk';
import { durationInWords, momentInWords, whereInWords } from '@/lib/report/plan/plan-words';
import { shareOf } from '@/lib/report/time-axis';
import styles from './cleaning-bar.module.css';
import type { Stage } from './stage';
import { spotKey } from './use-moves';

type Props = { stage: Stage; spot: Spot; isClashing: boolean };

/** A planned cleaning: as long as it takes, large enough to grasp; dragged, or moved by keys, or opened. */
export function CleaningBar({ stage, spot, isClashing }: Props) {
  const { view, desk, board, dragging } = stage;
  const held = dragging.drag !== null && spotKey(dragging.drag.spot) === spotKey(spot);
  const at = held ? { unit: spot.unit, option: dragging.drag!.over.option } : spot;
  const { start, end } = optionAt(desk, at);
  const [from, to] = [shareOf(view.span, start), shareOf(view.span, end)];
  const isLocked = board.draft.locked[spot.unit]!.includes(spot.option);
  const isSelected = board.selected !== null && spotKey(board.selected) === spotKey(spot);
  const isShut = held ? dragging.drag!.over.why.length > 0 : isClashing;
  const look = [
    styles.bar,
    held ? styles.held : '',
    isSelected ? styles.selected : '',
    isShut ? styles.shut : '',
  ];
  return (
    <button
      type="button"
      className={look.join(' ')}
      style={{ '--middle': (from + to) / 2, '--length': to - from } as CSSProperties}
      data-spot={spotKey(spot)}
      aria-label={nameOf(stage, at, isLocked)}
      aria-describedby="plan-keys"
      aria-expanded={isSelected}
      onPointerDown={(event) => dragging.onPointerDown(event, spot)}
      onPointerMove={dragging.onPointerMove}
      onPointerUp={dragging.onPointerUp}
      onPointerCancel={dragging.letGo}
      onClick={() => {
        if (!dragging.endsDrag()) board.select(isSelected ? null : spot);
      }}
      onKeyDown={(event) => onKey(event, stage, spot)}
    >
      <span className={styles.bolt} />
      {isLocked ? <Lock /> : null}
    </button>
  );
}

function nameOf({ desk }: Stage, spot: Spot, isLocked: boolean): string {
  const { start, end } = optionAt(desk, spot);
  const lock = isLocked ? ', locked' : '';
  return `Cleaning of ${tagAt(desk, spot.unit)}, ${momentInWords(start)}, ${durationInWords(end - start)}, ${whereInWords(desk, spot)}${lock}`;
}

function onKey(event: KeyboardEvent, { board, moves, dragging }: Stage, spot: Spot) {
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  const act = KEYS[event.key];
  if (event.key === 'Escape') {
    dragging.letGo();
    board.select(null);
  } else if (act !== undefined) {
    event.preventDefault();
    act(moves, spot);
  }
}

const KEYS: Record<string, (moves: Stage['moves'], spot: Spot) => void> = {
  ArrowLeft: (moves, spot) => moves.step(spot, -1),
  ArrowRight: (moves, spot) => moves.step(spot, 1),
  l: (moves, spot) => moves.lock(spot),
  L: (moves, spot) => moves.lock(spot),
  Delete: (moves, spot) => moves.takeOut(spot),
  Backspace: (moves, spot) => moves.takeOut(spot),
};

function Lock() {
  return (
    <svg className={styles.lock} viewBox="0 0 10 12" width="9" height="11" aria-hidden="true">
      <title>locked</title>
      <path d="M2.5 5V3.5a2.5 2.5 0 0 1 5 0V5" />
      <rect x="1" y="5" width="8" height="6" rx="1" />
    </svg>
  );
}

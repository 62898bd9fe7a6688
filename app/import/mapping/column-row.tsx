'use client';

import { type KeyboardEvent, memo, useId } from 'react';
import { Button } from '@/app/ui/button/button';
import type { MappedColumn } from '@/lib/contract/column-guess';
import { columnWords, guessWords } from '@/lib/report/import/guess-words';
import {
  isAsGuessed,
  type MappingChoice,
  QUANTITIES,
  unitsOfSensor,
} from '@/lib/report/import/mapping-choices';
import styles from './mapping.module.css';
import { Spark } from './spark';

type Props = {
  place: number;
  column: MappedColumn;
  choice: MappingChoice;
  problems: string[];
  tagsId: string;
  onChange: (place: number, changes: Partial<MappingChoice>) => void;
  onTakeGuess: (place: number) => void;
  onFocus: (place: number) => void;
};

/** One column: what is written in it, what it may be, and what a person says it is. */
export const ColumnRow = memo(function ColumnRow(props: Props) {
  const { place, column, choice, problems, onTakeGuess, onFocus } = props;
  const id = useId();
  const { guess } = column;
  const takeByKey = (event: KeyboardEvent) => {
    if (!event.altKey || event.key !== 'Enter' || guess === null) return;
    event.preventDefault();
    onTakeGuess(place);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: the legend of a fieldset cannot stand in a grid
    <div
      role="group"
      aria-labelledby={`${id}-name`}
      className={`${styles.row} ${choice.isSkipped ? styles.skipped : ''}`}
      onFocus={() => onFocus(place)}
      onKeyDown={takeByKey}
    >
      <Written id={`${id}-name`} column={column} />
      <Guessed column={column} choice={choice} onTake={() => onTakeGuess(place)} />
      <Chosen {...props} problemsId={problems.length === 0 ? undefined : `${id}-problems`} />
      {problems.length === 0 ? null : (
        <ul id={`${id}-problems`} className={styles.problems}>
          {problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      )}
    </div>
  );
});

function Written({ id, column }: { id: string; column: MappedColumn }) {
  const { first, range } = columnWords(column);
  return (
    <div className={styles.written}>
      <strong id={id}>{column.name}</strong>
      {column.description === '' ? null : <span>{column.description}</span>}
      <span className={styles.faint}>{first}</span>
      <span className={styles.range}>
        <Spark numbers={column.plot} />
        <span className={styles.faint}>{range}</span>
      </span>
    </div>
  );
}

type GuessedProps = { column: MappedColumn; choice: MappingChoice; onTake: () => void };

function Guessed({ column, choice, onTake }: GuessedProps) {
  const { name, guess } = column;
  if (guess === null)
    return (
      <div className={styles.faint}>
        {column.filled === 0 ? '' : 'No guess: nothing speaks for any sensor.'}
      </div>
    );
  const { what, how, why } = guessWords(guess);
  const isTaken = isAsGuessed(choice, guess);
  return (
    <div className={styles.guess}>
      <span>
        Guess: <strong>{what}</strong> · <span className={styles[how.level]}>{how.words}</span>
      </span>
      <span className={styles.faint}>{why}</span>
      {isTaken ? (
        <span className={styles.faint}>Taken.</span>
      ) : (
        <span>
          <Button weight="quiet" onClick={onTake}>
            Take it<span className="unseen"> for {name}</span>
          </Button>
        </span>
      )}
    </div>
  );
}

function Chosen({ place, choice, tagsId, problemsId, onChange }: Props & { problemsId: string | undefined }) {
  const unitsId = useId();
  const { tag, sensor, unit, isSkipped } = choice;
  const change = (changes: Partial<MappingChoice>) => onChange(place, { isSkipped: false, ...changes });
  return (
    <div className={styles.chosen}>
      <label>
        Unit
        <input
          list={tagsId}
          value={tag}
          aria-describedby={problemsId}
          onChange={(event) => change({ tag: event.target.value })}
        />
      </label>
      <label>
        Quantity
        <select value={sensor} onChange={(event) => change({ sensor: event.target.value as typeof sensor })}>
          <option value="">not chosen</option>
          {QUANTITIES.map((known) => (
            <option key={known.sensor} value={known.sensor}>
              {known.words}
            </option>
          ))}
        </select>
      </label>
      <label>
        Unit of measure
        <input list={unitsId} value={unit} onChange={(event) => change({ unit: event.target.value })} />
        <datalist id={unitsId}>
          {(sensor === '' ? [] : unitsOfSensor(sensor)).map((known) => (
            <option key={known} value={known} />
          ))}
        </datalist>
      </label>
      <label className={styles.skip}>
        <input
          type="checkbox"
          checked={isSkipped}
          onChange={(event) => onChange(place, { isSkipped: event.target.checked })}
        />
        Skip
      </label>
    </div>
  );
}

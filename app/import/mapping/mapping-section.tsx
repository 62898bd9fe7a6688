'use client';

import { useId, useMemo, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import { Choice } from '@/app/ui/choice/choice';
import type { Fault } from '@/lib/contract/app-error';
import type { MappingTask } from '@/lib/contract/column-guess';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { choiceProblems } from '@/lib/report/import/choice-problems';
import { countWords } from '@/lib/report/import/guess-words';
import { type ColumnFilter, shownPlaces } from '@/lib/report/import/mapping-choices';
import { unitCheck } from '@/lib/report/import/unit-check';
import { ColumnList } from './column-list';
import styles from './mapping.module.css';
import { UnitPanel } from './unit-panel';
import type { MappingState } from './use-mapping';

type Props = {
  task: MappingTask;
  state: MappingState;
  tags: string[];
  system: UnitSystem;
  faults: readonly Fault[];
  /** False where there are names only, without a file. */
  hasValues?: boolean;
};

/** Which unit and quantity each column stands for: guesses to look over, choices to make. */
export function MappingSection({ task, state, tags, system, faults, hasValues = true }: Props) {
  const { choices, counts, change, takeGuess, takeSure } = state;
  const [filter, setFilter] = useState<ColumnFilter>('all');
  // What a filter shows stays in place while it is worked on: a row that is done must not vanish under the hand.
  const [places, setPlaces] = useState(() => shownPlaces(choices, task.columns, 'all'));
  const [unit, setUnit] = useState('');
  const tagsId = useId();
  const known = useMemo(() => new Set(tags), [tags]);
  const problems = useMemo(() => choiceProblems(choices, { tags: known, faults }), [choices, known, faults]);
  const show = (next: ColumnFilter) => {
    setFilter(next);
    setPlaces(shownPlaces(choices, task.columns, next));
  };
  const unitAt = (place: number) => {
    const tag = choices[place]!.tag.trim() || task.columns[place]!.guess?.tag || '';
    if (known.has(tag)) setUnit(tag);
  };
  const units = [...new Set(choices.map(({ tag }) => tag.trim()))].filter((tag) => known.has(tag)).sort();
  const shownUnit = units.includes(unit) ? unit : (units[0] ?? '');
  return (
    <div className={styles.section}>
      <datalist id={tagsId}>
        {tags.map((tag) => (
          <option key={tag} value={tag} />
        ))}
      </datalist>
      <div className={styles.bar}>
        <p role="status">{countWords(counts, task.more)}</p>
        {counts.sure === 0 ? null : (
          <Button onClick={takeSure}>
            Take {counts.sure === 1 ? 'the sure guess' : `all ${counts.sure} sure guesses`}
          </Button>
        )}
        <Choice
          label="Columns shown"
          options={[
            { value: 'all', label: `all ${counts.all}` },
            { value: 'open', label: `without a sensor ${counts.open}` },
            { value: 'doubtful', label: `doubtful ${counts.doubtful}` },
          ]}
          value={filter}
          onChoose={show}
        />
      </div>
      {places.length === 0 ? (
        <p className={styles.faint}>No column is left here.</p>
      ) : (
        <ColumnList
          // Another filter begins at the top.
          key={filter}
          places={places}
          columns={task.columns}
          choices={choices}
          problems={problems}
          tagsId={tagsId}
          onChange={change}
          onTakeGuess={takeGuess}
          onFocus={unitAt}
        />
      )}
      {hasValues && shownUnit !== '' ? (
        <UnitPanel
          tag={shownUnit}
          tags={units}
          checks={unitCheck(shownUnit, { choices, task, system })}
          onPick={setUnit}
        />
      ) : null}
    </div>
  );
}

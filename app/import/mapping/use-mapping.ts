'use client';

import { useMemo, useState } from 'react';
import type { MappingTask } from '@/lib/contract/column-guess';
import type { Mapping } from '@/lib/contract/mapping';
import {
  choicesOf,
  countChoices,
  isOpen,
  isSure,
  type MappingChoice,
  mappingFrom,
  withGuess,
} from '@/lib/report/import/mapping-choices';

export type MappingState = ReturnType<typeof useMapping>;

/** What a person has said of each column so far. */
export function useMapping(task: MappingTask, mapping: Mapping | null) {
  const [choices, setChoices] = useState(() => choicesOf(task.columns, mapping));
  const [timeColumn, setTimeColumn] = useState(mapping?.timeColumn ?? task.timeColumn);
  const counts = useMemo(() => countChoices(choices, task), [choices, task]);
  const change = (place: number, changes: Partial<MappingChoice>) =>
    setChoices((before) => before.map((choice, i) => (i === place ? { ...choice, ...changes } : choice)));
  const takeGuess = (place: number) => {
    const { guess } = task.columns[place]!;
    if (guess !== null)
      setChoices((before) => before.map((choice, i) => (i === place ? withGuess(choice, guess) : choice)));
  };
  const takeSure = () =>
    setChoices((before) =>
      before.map((choice, i) => {
        const { guess } = task.columns[i]!;
        return isOpen(choice) && isSure(guess) ? withGuess(choice, guess) : choice;
      }),
    );
  const result = () => mappingFrom(choices, { before: mapping, timeColumn });
  return { choices, counts, change, takeGuess, takeSure, timeColumn, setTimeColumn, result };
}

'use client';

import { useState } from 'react';
import { Button } from '@/app/ui/button/button';
import { Pick } from '@/app/ui/choice/pick';
import { Notice } from '@/app/ui/notice/notice';
import type { MappingTask } from '@/lib/contract/column-guess';
import { savedOffer } from '@/lib/report/import/guess-words';
import styles from './mapping.module.css';

type Props = { task: MappingTask; onUse: (name: string) => void };

/** Saved mappings that explain columns of this file: one that explains all of them is offered first. */
export function SavedOffer({ task, onUse }: Props) {
  const [name, setName] = useState(task.saved[0]?.name ?? '');
  const offer = savedOffer(task);
  if (offer === null) return null;
  return (
    <Notice title={offer.title}>
      <p className={styles.actions}>
        {task.saved.length < 2 ? null : (
          <Pick
            label="Saved mapping"
            options={task.saved.map((saved) => ({ value: saved.name, label: offer.labelOf(saved) }))}
            value={name}
            onPick={setName}
          />
        )}
        <Button onClick={() => onUse(name)}>Use “{name}”</Button>
      </p>
    </Notice>
  );
}

'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Notice } from '@/app/ui/notice/notice';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { MappingView } from '@/lib/report/import/mapping-view';
import styles from '../../mapping/mapping.module.css';
import { MappingSection } from '../../mapping/mapping-section';
import { SaveForm } from '../../mapping/save-form';
import { useMapping } from '../../mapping/use-mapping';

const NO_FAULTS: never[] = [];

/** The choices of a saved mapping; saving them makes the next revision. */
export function EditMapping({ view, system }: { view: MappingView; system: UnitSystem }) {
  const { saved, task, tags } = view;
  const state = useMapping(task, saved.mapping);
  const router = useRouter();
  const [savedAs, setSavedAs] = useState<string | null>(null);
  return (
    <div className={styles.mapping}>
      <MappingSection
        task={task}
        state={state}
        tags={tags}
        system={system}
        faults={NO_FAULTS}
        hasValues={false}
      />
      {savedAs === null ? null : (
        <Notice kind="done" title="Saved">
          {savedAs}
        </Notice>
      )}
      <SaveForm
        loaded={saved}
        proposedName={saved.name}
        submitLabel="Save the mapping"
        mapping={state.result}
        onSaved={({ name, revision }) => {
          setSavedAs(`“${name}” is at revision ${revision} now; files read from here on follow it.`);
          if (name === saved.name) router.refresh();
          else router.push(`/import/mappings/${encodeURIComponent(name)}`);
        }}
      />
    </div>
  );
}

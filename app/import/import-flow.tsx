'use client';

import { useId } from 'react';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { previewView } from '@/lib/report/import/preview-view';
import { FileDrop } from './file-drop';
import { fileSize } from './file-size';
import styles from './import.module.css';
import { MappingEditor } from './mapping-editor';
import { PreviewPanel } from './preview-panel';
import { SendPanel } from './send-panel';
import { useImport } from './use-import';
import { ZoneField } from './zone-field';

type Props = {
  tags: string[];
  system: UnitSystem;
  timeZone: string;
  siteZones: string[];
  timeZones: string[];
};

/** From the choice of a file to its import. */
export function ImportFlow({ tags, system, timeZone: firstZone, siteZones, timeZones }: Props) {
  const { step, timeZone, mapping, look, send, cancel } = useImport(firstZone);
  const titleId = useId();
  // Another file may be of another kind: a mapping kept for its header is recalled.
  const choose = (file: File) => look(file, { mapping: null });
  if (step.at === 'choose') return <FileDrop onChoose={choose} />;
  const { file } = step;
  const isBusy = step.at === 'sending' || step.at === 'looking';
  return (
    <section className={styles.flow} aria-labelledby={titleId}>
      <div className={styles.chosen}>
        <h3 id={titleId} className={styles.fileName}>
          {file.name} <span className={styles.faint}>{fileSize(file.size)}</span>
        </h3>
        {isBusy ? null : <FileDrop isSmall onChoose={choose} />}
        <ZoneField
          value={timeZone}
          siteZones={siteZones}
          timeZones={timeZones}
          isDisabled={isBusy}
          onPick={(zone) => look(file, { timeZone: zone })}
        />
      </div>
      {step.at === 'looking' ? (
        <p role="status" className={styles.waiting}>
          Looking at the file … <Button onClick={cancel}>Cancel</Button>
        </p>
      ) : null}
      {step.at === 'sending' ? <SendPanel size={file.size} sent={step.sent} onCancel={cancel} /> : null}
      {step.at === 'refused' ? (
        <>
          <ProblemNotice
            title={step.wasSending ? 'Nothing was imported' : 'This file cannot be read'}
            problem={step.problem}
          />
          <p className={styles.actions}>
            <Button onClick={() => look(file)}>Look again</Button>
          </p>
        </>
      ) : null}
      {step.at === 'looked' ? (
        <PreviewPanel
          view={previewView(step.preview, system)}
          expected={step.expected}
          onImport={() => send(file, step.preview)}
          onZone={(zone) => look(file, { timeZone: zone })}
        >
          <MappingEditor
            key={step.preview.format.columns.map(({ name, use }) => `${name} ${use}`).join()}
            preview={step.preview}
            mapping={mapping}
            tags={tags}
            onApply={(next) => look(file, { mapping: next })}
          />
        </PreviewPanel>
      ) : null}
    </section>
  );
}

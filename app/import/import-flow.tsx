'use client';

import { useId } from 'react';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { previewView } from '@/lib/report/import/preview-view';
import { fileSize } from './file-size';
import styles from './import.module.css';
import { FileMapping } from './mapping/file-mapping';
import { NO_MAPPING } from './mapping/used-mapping';
import { PreviewPanel } from './preview-panel';
import { ReadingsDrop } from './readings-drop';
import { SendPanel } from './send-panel';
import { TimeFormatField } from './time-format-field';
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
  const { step, timeZone, timeFormat, used, look, readWithSaved, send, cancel } = useImport(firstZone);
  const titleId = useId();
  // Another file may be of another kind: saved mappings that fit it are offered anew.
  const choose = (file: File) => look(file, { used: NO_MAPPING, timeFormat: '' });
  if (step.at === 'choose') return <ReadingsDrop onChoose={choose} />;
  const { file } = step;
  const isBusy = step.at === 'sending' || step.at === 'looking';
  return (
    <section className={styles.flow} aria-labelledby={titleId}>
      <div className={styles.chosen}>
        <h3 id={titleId} className={styles.fileName}>
          {file.name} <span className={styles.faint}>{fileSize(file.size)}</span>
        </h3>
        {isBusy ? null : <ReadingsDrop isSmall onChoose={choose} />}
        <ZoneField
          value={timeZone}
          siteZones={siteZones}
          timeZones={timeZones}
          isDisabled={isBusy}
          onPick={(zone) => look(file, { timeZone: zone })}
        />
        <TimeFormatField
          value={timeFormat}
          isDisabled={isBusy}
          onPick={(format) => look(file, { timeFormat: format })}
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
          onImport={() => send(file)}
          onZone={(zone) => look(file, { timeZone: zone })}
        >
          {step.preview.mapping === null ? null : (
            <FileMapping
              preview={step.preview}
              used={used}
              tags={tags}
              system={system}
              timeZone={timeZone}
              timeFormat={timeFormat}
              onApply={(next) => look(file, { used: next })}
              onUseSaved={(name) => readWithSaved(file, name)}
            />
          )}
        </PreviewPanel>
      ) : null}
    </section>
  );
}

'use client';

import Link from 'next/link';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import { CheckResult } from './check-result';
import styles from './fleet-sheet.module.css';
import { SheetDrop } from './sheet-drop';
import { type SheetStep, useFleetSheet } from './use-fleet-sheet';

/** Choose, look, register. */
export function CheckFlow() {
  const { step, check, register } = useFleetSheet();
  return (
    <div className={styles.flow}>
      <SheetDrop onChoose={check} chosen={step.at === 'idle' ? null : step.file.name} />
      <div aria-live="polite" className={styles.flow}>
        <Progress step={step} />
      </div>
      {step.at === 'refused' ? (
        <ProblemNotice
          title={step.isChecked ? 'Nothing was registered' : 'This could not be checked'}
          problem={step.problem}
        />
      ) : null}
      {step.at === 'checked' || step.at === 'registering' ? (
        <CheckResult view={step.view}>
          {step.view.action === null ? null : (
            <Button
              weight="primary"
              disabled={step.at === 'registering'}
              onClick={() => register(step.file, step.view)}
            >
              {step.at === 'registering' ? 'Registering …' : step.view.action}
            </Button>
          )}
        </CheckResult>
      ) : null}
    </div>
  );
}

function Progress({ step }: { step: SheetStep }) {
  if (step.at === 'checking') return <p className={styles.faint}>Checking every cell …</p>;
  if (step.at !== 'registered') return null;
  return (
    <Notice kind="done" title="Registered">
      {step.said} Next: <Link href="/import">import their readings</Link>, or{' '}
      <Link href="/">see the fleet</Link>.
    </Notice>
  );
}

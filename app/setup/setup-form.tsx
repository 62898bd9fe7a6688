'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useCallback, useMemo, useRef, useState } from 'react';
import { useRight } from '@/app/access/rights';
import { type Problem, postJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import { withValueAt } from '@/lib/report/setup/draft-path';
import { following } from '@/lib/report/setup/following-choices';
import type { SetupView } from '@/lib/report/setup/setup-records';
import { unitPath } from '@/lib/report/unit/unit-address';
import { BuildPart } from './build-part';
import { DesignPart } from './design-part';
import { FaultSummary } from './fault-summary';
import { FiguresPanel } from './figures-panel';
import { IdentityPart } from './identity-part';
import { LimitsPart } from './limits-part';
import { OptionalParts } from './optional-parts';
import styles from './setup.module.css';
import { type Setup, SetupProvider } from './setup-context';
import { StreamPart } from './stream-part';
import { useChecked } from './use-checked';
import { forget, useKeptDraft } from './use-kept-draft';
import { ValidityPart } from './validity-part';

const CONFLICT = 409;

/** The datasheet of a unit as a form: checked while it is typed, with what follows from it beside. */
export function SetupForm({ view }: { view: SetupView }) {
  const { tag, sites, supplyNames, timeZones, system } = view;
  const router = useRouter();
  const maySave = useRight('describe');
  const kept = useKeptDraft(tag, view.version, view.draft);
  const { draft, change } = kept;
  const { document, faults, figures } = useChecked(draft, kept.begunFrom, maySave);
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());
  const [isAllShown, setIsAllShown] = useState(false);
  const [isSaving, setIsSaving] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const summary = useRef<HTMLDivElement>(null);

  const set = useCallback(
    (path: string, value: unknown) => change((before) => following(withValueAt(before, path, value), path)),
    [change],
  );
  const touch = useCallback((path: string) => setTouched((before) => new Set(before).add(path)), []);
  const setup = useMemo<Setup>(
    () => ({ draft, set, touch, faults, touched, isAllShown, figures, system, supplyNames }),
    [draft, set, touch, faults, touched, isAllShown, figures, system, supplyNames],
  );

  const save = async (event: FormEvent) => {
    event.preventDefault();
    setIsAllShown(true);
    setProblem(null);
    if (faults.length > 0) {
      requestAnimationFrame(() => summary.current?.focus());
      return;
    }
    setIsSaving(true);
    const answer = await postJson<{ tag: string }>('/api/v1/units', { ...document, version: kept.begunFrom });
    setIsSaving(false);
    if (answer.problem !== null) return setProblem(answer.problem);
    forget(tag);
    router.push(unitPath(answer.document.tag));
  };

  const openNewest = () => {
    kept.discard();
    setProblem(null);
    router.refresh();
  };

  return (
    <SetupProvider value={setup}>
      <form
        onSubmit={save}
        noValidate
        className={styles.form}
        aria-label={tag === null ? 'New unit' : `Datasheet of ${tag}`}
      >
        <div className={styles.sheet}>
          {kept.isRestored ? (
            <Notice title="Your unsaved entries are back">
              They were kept in this tab.{' '}
              <Button weight="quiet" onClick={kept.discard}>
                Discard them
              </Button>
            </Notice>
          ) : null}
          {isAllShown && faults.length > 0 ? <FaultSummary ref={summary} faults={faults} /> : null}
          <fieldset disabled={!maySave} className={styles.parts}>
            <IdentityPart sites={sites} timeZones={timeZones} isKnown={tag !== null} />
            <BuildPart />
            <StreamPart side="hot" />
            <StreamPart side="cold" />
            <DesignPart />
            <LimitsPart />
            <OptionalParts />
            {tag === null || !maySave ? null : <ValidityPart />}
          </fieldset>
          {problem === null ? null : <ProblemNotice title="Not saved" problem={problem} />}
          {maySave ? (
            <div className={styles.actions}>
              <Button type="submit" weight="primary" disabled={isSaving}>
                {isSaving ? 'Saving …' : tag === null ? 'Add the unit' : 'Save as a new version'}
              </Button>
              {problem?.status === CONFLICT ? (
                <Button onClick={openNewest}>Discard mine and open the newest version</Button>
              ) : null}
              {kept.isDirty && !kept.isRestored ? (
                <Button onClick={kept.discard}>
                  {tag === null ? 'Empty the form' : 'Discard the changes'}
                </Button>
              ) : null}
              <span role="status" className={styles.said}>
                {faults.length === 0 ? 'Everything needed is there.' : `${faults.length} to fill in or mend.`}
              </span>
            </div>
          ) : (
            <p className={styles.said}>
              Something is wrong here? Tell an engineer or an administrator: they change datasheets.
            </p>
          )}
        </div>
        {maySave ? <FiguresPanel /> : null}
      </form>
    </SetupProvider>
  );
}

'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useState, useTransition } from 'react';
import { useRight } from '@/app/access/rights';
import { type Problem, putJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import type { Fault } from '@/lib/contract/app-error';
import {
  type CalendarDraft,
  calendarFaults,
  calendarInWords,
  calendarOf,
} from '@/lib/report/plan/calendar-draft';
import styles from './calendar.module.css';
import { OutageRows } from './outage-rows';
import { PairRows } from './pair-rows';

/** HTTP status of a calendar that somebody else has saved since. */
const CONFLICT = 409;

type Props = { place: Place; stored: CalendarDraft; tags: string[]; isOpen: boolean };

/** A site, the clock its outages are stated by, and the state of its calendar that is shown. */
type Place = { site: string; timeZone: string; revision: number };

/** When the site can be cleaned: outages, crew outside them, units that must not be out together. */
export function CalendarSection({ place, stored, tags, isOpen }: Props) {
  const { draft, change, save, faults, problem, isSaving, isDirty, isKept } = useCalendar(place, stored);
  const mayChange = useRight('plan');
  const [isShown, setShown] = useState(isOpen);
  const onSubmit = (event: FormEvent) => {
    event.preventDefault();
    void save();
  };
  return (
    <details
      id="calendar"
      className={styles.calendar}
      open={isShown}
      onToggle={(event) => setShown(event.currentTarget.open)}
    >
      <summary>
        <h2>Calendar</h2> <span>{calendarInWords(stored)}</span>
      </summary>
      <form onSubmit={onSubmit} aria-busy={isSaving} className={styles.form}>
        <fieldset className={styles.fields} disabled={!mayChange}>
          <OutageRows
            outages={draft.outages}
            faults={faults}
            change={(outages) => change({ ...draft, outages })}
          />
          <div className={styles.crew}>
            <Field
              id="crew-hours"
              label="Crew hours a week outside outages"
              hint="empty: cleanings in outages only"
              error={null}
            >
              <input
                {...described('crew-hours', null, 'hint')}
                type="number"
                min={0}
                step="any"
                value={draft.crewHoursPerWeek}
                onChange={(event) => change({ ...draft, crewHoursPerWeek: event.target.value })}
              />
            </Field>
          </div>
          <PairRows pairs={draft.pairs} tags={tags} change={(pairs) => change({ ...draft, pairs })} />
        </fieldset>
        {problem === null ? null : <ProblemNotice title="The calendar was not saved" problem={problem} />}
        {mayChange ? (
          <div className={styles.tools}>
            <Button type="submit" weight="primary" disabled={!isDirty || isSaving}>
              {isKept ? 'Save mine over theirs' : 'Save the calendar'}
            </Button>
            <Button disabled={!isDirty || isSaving} onClick={() => change(stored)}>
              {isKept ? 'Discard mine, show theirs' : 'Discard changes'}
            </Button>
            <span className={styles.hint}>Saved for the site; the plan is then made anew.</span>
          </div>
        ) : (
          <p className={styles.hint}>A planner changes the calendar.</p>
        )}
      </form>
    </details>
  );
}

function useCalendar({ site, timeZone, revision }: Place, stored: CalendarDraft) {
  const router = useRouter();
  const [draft, setDraft] = useState(stored);
  // Somebody else has saved since: what was typed stays, and is saved over theirs or discarded.
  const [isKept, setKept] = useState(false);
  const [begunFrom, setBegunFrom] = useState(stored);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [unread, setUnread] = useState<Fault[]>([]);
  const [isSending, setSending] = useState(false);
  const [isRefreshing, startTransition] = useTransition();
  const save = async () => {
    const found = calendarFaults(draft, timeZone);
    setUnread(found);
    setProblem(null);
    if (found.length > 0) return;
    setSending(true);
    const answer = await putJson('/api/v1/calendar', { ...calendarOf(site, draft, timeZone), revision });
    setSending(false);
    setProblem(answer.problem);
    const isConflict = answer.problem?.status === CONFLICT;
    setKept(isConflict);
    if (answer.problem === null || isConflict) startTransition(() => router.refresh());
  };
  // What was saved comes back from the server: it takes the place of the draft.
  if (isOther(begunFrom, stored)) {
    setBegunFrom(stored);
    if (!isKept) setDraft(stored);
  }
  const change = (next: CalendarDraft) => {
    setDraft(next);
    if (next !== stored) return;
    setKept(false);
    setProblem(null);
  };
  const isDirty = isOther(draft, stored);
  const faults = [...unread, ...(problem?.errors ?? [])];
  return { draft, change, save, faults, problem, isSaving: isSending || isRefreshing, isDirty, isKept };
}

function isOther(one: CalendarDraft, other: CalendarDraft): boolean {
  return JSON.stringify(one) !== JSON.stringify(other);
}

'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useState, useTransition } from 'react';
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

type Props = { place: Place; stored: CalendarDraft; tags: string[]; isOpen: boolean };

/** A site and the clock its outages are stated by. */
type Place = { site: string; timeZone: string };

/** When the site can be cleaned: outages, crew outside them, units that must not be out together. */
export function CalendarSection({ place, stored, tags, isOpen }: Props) {
  const { draft, change, save, faults, problem, isSaving, isDirty } = useCalendar(place, stored);
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
        {problem === null ? null : <ProblemNotice title="The calendar was not saved" problem={problem} />}
        <div className={styles.tools}>
          <Button type="submit" weight="primary" disabled={!isDirty || isSaving}>
            Save the calendar
          </Button>
          <Button disabled={!isDirty || isSaving} onClick={() => change(stored)}>
            Discard changes
          </Button>
          <span className={styles.hint}>Saved for the site; the plan is then made anew.</span>
        </div>
      </form>
    </details>
  );
}

function useCalendar({ site, timeZone }: Place, stored: CalendarDraft) {
  const router = useRouter();
  const [draft, change] = useState(stored);
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
    const answer = await putJson('/api/v1/calendar', calendarOf(site, draft, timeZone));
    setSending(false);
    setProblem(answer.problem);
    if (answer.problem === null) startTransition(() => router.refresh());
  };
  // What was saved comes back from the server: it takes the place of the draft.
  if (isOther(begunFrom, stored)) {
    setBegunFrom(stored);
    change(stored);
  }
  const isDirty = isOther(draft, stored);
  const faults = [...unread, ...(problem?.errors ?? [])];
  return { draft, change, save, faults, problem, isSaving: isSending || isRefreshing, isDirty };
}

function isOther(one: CalendarDraft, other: CalendarDraft): boolean {
  return JSON.stringify(one) !== JSON.stringify(other);
}

'use client';

import Link from 'next/link';
import { useRef, useState } from 'react';
import { type Problem, postJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import { Section } from '@/app/ui/section/section';
import { FLEET_FILE_EXAMPLE, takenInWords } from '@/lib/report/setup/fleet-words';
import styles from './fleet-upload.module.css';

type Taken = { added: string[]; updated: string[]; unchanged: string[]; isAnalysed: boolean };
type Outcome =
  | { at: 'idle' }
  | { at: 'sending' }
  | { at: 'taken'; taken: Taken }
  | { at: 'refused'; problem: Problem };

/** A fleet file as JSON: all of its units are taken, or none and every field at fault is named. */
export function FleetUpload() {
  const input = useRef<HTMLInputElement>(null);
  const [outcome, setOutcome] = useState<Outcome>({ at: 'idle' });
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setOutcome({ at: 'sending' });
    let document: unknown;
    try {
      document = JSON.parse(await file.text());
    } catch (error) {
      const errors = [{ field: file.name, message: (error as Error).message }];
      setOutcome({ at: 'refused', problem: { status: 0, detail: 'The file is no JSON.', errors } });
      return;
    } finally {
      if (input.current !== null) input.current.value = '';
    }
    const answer = await postJson<Taken>('/api/v1/fleet', document);
    setOutcome(
      answer.problem === null
        ? { at: 'taken', taken: answer.document }
        : { at: 'refused', problem: answer.problem },
    );
  };
  return (
    <Section
      id="fleet-file"
      title="Register a whole fleet file"
      lead="One JSON file with a site and its units. Units with a known tag get a new version of their datasheet. All units are taken or none."
    >
      <div className={styles.body}>
        <input
          ref={input}
          type="file"
          accept=".json,application/json"
          className="unseen"
          tabIndex={-1}
          aria-hidden="true"
          data-testid="fleet-file"
          onChange={(event) => take(event.target.files?.[0])}
        />
        <p className={styles.actions}>
          <Button onClick={() => input.current?.click()} disabled={outcome.at === 'sending'}>
            {outcome.at === 'sending' ? 'Registering …' : 'Choose a fleet file'}
          </Button>
          <a
            href={`data:application/json;charset=utf-8,${encodeURIComponent(FLEET_FILE_EXAMPLE)}`}
            download="fleet-example.json"
          >
            Download an example (JSON)
          </a>
        </p>
        {outcome.at === 'taken' ? (
          <Notice kind="done" title="Registered">
            {takenInWords(outcome.taken)} <Link href="/">See the fleet</Link> or{' '}
            <Link href="/import">import readings</Link>.
          </Notice>
        ) : null}
        {outcome.at === 'refused' ? (
          <ProblemNotice title="Nothing was registered" problem={outcome.problem} />
        ) : null}
      </div>
    </Section>
  );
}

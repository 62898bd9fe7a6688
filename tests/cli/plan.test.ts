import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planResultSchema } from '@/lib/contract/plan';
import { plannedFleet } from '../support/planned-fleet';
import { runCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

let database: TemporaryDatabase;
let request: string;

beforeAll(async () => {
  database = await temporaryDatabase();
  await plannedFleet(database.context, { seed: 31, units: 4 });
  request = join(database.folder, 'outages.json');
  writeFileSync(
    request,
    JSON.stringify({
      outages: [{ name: 'Summer stop', from: '2026-07-13', to: '2026-07-19', crewHours: 60 }],
      online: { crewHoursPerWeek: 20 },
      confidence: 0.5,
      timeLimit: 60,
    }),
  );
}, 120_000);
afterAll(() => database.remove());

const plan = (...args: string[]) => runCleanby(['plan', ...args], database.url);

describe('cleanby plan', { timeout: 60_000 }, () => {
  it('prints the plan as JSON and writes its calendar, one event for each cleaning', async () => {
    const ics = join(database.folder, 'plan.ics');
    const run = await plan('--outages', request, '--horizon', '26w', '--json', '--ics', ics);
    expect(run.code, run.stderr).toBe(0);
    const made = planResultSchema.parse(JSON.parse(run.stdout));
    expect(made.status).toBe('optimal');
    expect((Date.parse(made.to) - Date.parse(made.from)) / 86_400_000).toBe(26 * 7);
    // An independent parser of RFC 5545 reads what was written.
    const events = new ICAL.Component(ICAL.parse(readFileSync(ics, 'utf8'))).getAllSubcomponents('vevent');
    const starts = events.map((event) => new ICAL.Event(event).startDate.toJSDate().getTime());
    expect(starts.sort()).toEqual(made.cleanings.map(({ start }) => Date.parse(start)).sort());
    expect(run.stderr).toContain('everything at the next outage');
  });

  it('does not say that no plan can be where there was no time to find out', async () => {
    const hurried = join(database.folder, 'hurried.json');
    const urgent = { ...JSON.parse(readFileSync(request, 'utf8')), confidence: 0.9, timeLimit: 0.001 };
    writeFileSync(hurried, JSON.stringify(urgent));
    const run = await plan('--outages', hurried, '--json');
    expect(run.code, run.stderr).toBe(0);
    expect(planResultSchema.parse(JSON.parse(run.stdout))).toMatchObject({
      status: 'infeasible',
      isTimeUp: true,
    });
    expect(run.stderr).toContain('no plan that keeps every constraint was found in the time');
    expect(run.stderr).toContain('clash: ');
  });

  it('says what to do first where nothing is registered', async () => {
    const empty = `file:${join(database.folder, 'empty.db')}`;
    const run = await runCleanby(['plan', '--outages', request], empty);
    expect(run.code).toBe(1);
    expect(run.stderr.trim().split('\n').at(-1)).toBe(
      'No unit can be planned: there is none yet; register units, import their readings, then analyse them',
    );
  });

  it('refuses a file whose fields cannot be, naming them, and a horizon that cannot be read', async () => {
    const faulty = join(database.folder, 'faulty.json');
    writeFileSync(faulty, JSON.stringify({ outages: [{ name: 'X', from: 'soon', to: '2026-07-01' }] }));
    const run = await plan('--outages', faulty);
    expect(run.code).toBe(1);
    expect(run.stderr).toContain('outages[0].from: write a day as YYYY-MM-DD');
    writeFileSync(faulty, JSON.stringify({ online: { crewHoursPerWeek: 8 }, crewz: 4 }));
    expect((await plan('--outages', faulty)).stderr).toContain('crewz: is not known here');
    const horizon = await plan('--outages', request, '--horizon', 'long');
    expect(horizon.code).toBe(1);
    expect(horizon.stderr.trim().split('\n').at(-1)).toBe('The horizon "long" cannot be read');
    expect((await plan()).code).toBe(2);
  });
});

import { describe, expect, test } from 'vitest';
import type { ChangeAction, ChangeSubject, KeptChange } from '@/lib/contract/change-record';
import { changedFields } from '@/lib/contract/changed-fields';
import { changeInWords } from '@/lib/report/changes/change-words';
import { changesHref, readChangesAddress } from '@/lib/report/changes/changes-address';
import { changesCsv } from '@/lib/report/changes/changes-csv';
import { fieldLines } from '@/lib/report/changes/field-lines';

const ZONE = 'Europe/Lisbon';

function change(
  subject: ChangeSubject,
  action: ChangeAction,
  documents: { before?: unknown; after?: unknown; name?: string },
): KeptChange {
  return {
    id: 1,
    at: Date.parse('2026-05-04T08:00:00Z'),
    actor: { kind: 'person', id: 'a', name: 'Ann Perez' },
    subject,
    name: documents.name ?? 'E-101',
    action,
    before: documents.before ?? null,
    after: documents.after ?? null,
    note: null,
  };
}

const said = (...given: Parameters<typeof change>) => changeInWords(change(...given), ZONE);

describe('a change in words', () => {
  test('a limit: from what to what, the unit once', () => {
    const limit = (value: number) => ({ kind: 'fouling-resistance', value: { value, unit: 'm2.K/W' } });
    expect(said('limit', 'changed', { before: limit(2e-4), after: limit(1.5e-4) })).toBe(
      'Fouling-resistance limit of E-101: 2·10⁻⁴ → 1.5·10⁻⁴ m²·K/W',
    );
    const outlet = { kind: 'outlet-temperature', stream: 'cold', below: { value: 48, unit: 'Cel' } };
    expect(said('limit', 'added', { after: outlet })).toBe(
      'Outlet-temperature limit of E-101, cold side: 48 °C, new',
    );
    expect(said('limit', 'withdrawn', { before: { kind: 'cleanliness', below: 0.75 } })).toBe(
      'Cleanliness limit of E-101 taken away; it was 0.75',
    );
  });

  test('a datasheet: its fields by name, the first three of them', () => {
    const fields = changedFields(
      { service: 'Old', area: { value: 120, unit: 'm2' }, cleaning: { cost: 1, crewHours: 2 } },
      { service: 'New', area: { value: 130, unit: 'm2' }, cleaning: { cost: 3, crewHours: 4 } },
    );
    expect(said('unit', 'changed', fields)).toBe(
      'Datasheet of E-101: Service Old → New; Area 120 → 130 m²; Cost of a cleaning 1 → 3; 1 more field',
    );
  });

  test('a cleaning, a judged period and planned work: on the clock of the site', () => {
    const cleaning = { number: 3, at: '2026-05-01T06:30:00.000Z', cost: 900 };
    expect(said('cleaning', 'added', { after: cleaning })).toBe(
      'Cleaning of E-101 recorded: 1 May 2026, 07:30',
    );
    expect(said('cleaning', 'changed', { before: cleaning, after: { ...cleaning, cost: 950 } })).toBe(
      'Cleaning of E-101, 1 May 2026, 07:30: Cost 900 → 950',
    );
    const period = {
      number: 1,
      from: '2026-05-01T00:00:00Z',
      to: '2026-05-02T00:00:00Z',
      verdict: 'exclude',
    };
    expect(said('override', 'added', { after: period })).toBe(
      'Readings of E-101, 1 May 2026, 01:00 to 2 May 2026, 01:00: left out',
    );
    const work = { number: 4, from: '2026-06-01T06:00:00Z' };
    expect(
      said('planned-work', 'moved', { before: work, after: { ...work, from: '2026-06-03T06:00:00Z' } }),
    ).toBe('Work on E-101, 1 Jun 2026, 07:00: moved to 3 Jun 2026, 07:00');
  });

  test('a price, an import and what another program recorded of an account', () => {
    const gas = { supply: 'gas', from: '2026-01-01', price: { amount: 40, per: 'MW.h' }, carbon: null };
    const dearer = { ...gas, price: { amount: 45, per: 'MW.h' } };
    expect(said('price', 'changed', { name: 'Mill', before: gas, after: dearer })).toBe(
      'gas at Mill from 1 Jan 2026: 40 → 45 per MW·h',
    );
    const counts = { batch: 7, added: 240, replaced: 3, setAside: 0 };
    expect(said('import', 'added', { name: 'may.csv', after: counts })).toBe(
      'Import 7 (may.csv): 240 readings added, 3 replaced, 0 set aside',
    );
    expect(
      said('account', 'changed', {
        name: 'bo@plant.example',
        before: { role: 'viewer' },
        after: { role: 'planner' },
      }),
    ).toBe('Account bo@plant.example changed: Role viewer → planner');
  });

  test('every subject and action has words, whatever stands in the documents', () => {
    const kinds: [ChangeSubject, ChangeAction][] = [
      ['mapping', 'added'],
      ['token', 'withdrawn'],
      ['invitation', 'accepted'],
      ['site', 'added'],
      ['account', 'locked'],
    ];
    for (const [subject, action] of kinds) expect(said(subject, action, { after: 7 })).toContain('E-101');
  });
});

describe('the fields of a change', () => {
  test('are those that differ, a quantity as a whole', () => {
    const [line, ...others] = fieldLines(
      change('calendar', 'changed', {
        before: { 'outages.Spring.to': '2026-05-05T00:00:00Z' },
        after: { 'outages.Spring.to': '2026-05-06T00:00:00Z' },
      }),
    );
    expect(others).toEqual([]);
    expect(line).toMatchObject({ field: 'Outage “Spring”, to', after: '2026-05-06T00:00:00Z' });
  });
});

describe('the address of changes', () => {
  test('comes back as it was asked for, and what cannot be read is left out', () => {
    const query = { name: 'E/1', who: 'Ann', subject: 'limit', from: '2026-05-01' } as const;
    const href = changesHref(query);
    const given = Object.fromEntries(new URL(href, 'http://localhost').searchParams);
    expect(readChangesAddress(given)).toEqual(query);
    expect(readChangesAddress({ subject: 'weather', from: 'May', name: ['A', 'B'] })).toEqual({ name: 'A' });
    expect(readChangesAddress({ from: '2026-05-02', to: '2026-05-01' })).toEqual({ from: '2026-05-02' });
  });
});

describe('changes as a file', () => {
  test('hold no formula, whatever people called things', () => {
    const odd = { ...change('unit', 'added', { name: '=1+1', after: {} }), note: '@SUM(A1)' };
    const [, row] = changesCsv([odd], { zones: {}, timeZone: ZONE }).split('\r\n');
    expect(row).toContain("'=1+1");
    expect(row).toContain("'@SUM(A1)");
    expect(row).toContain('2026-05-04T09:00:00+01:00');
  });
});

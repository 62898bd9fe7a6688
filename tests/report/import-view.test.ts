import { describe, expect, it } from 'vitest';
import type { ImportPreview } from '@/lib/contract/import-preview';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { statusInWords } from '@/lib/report/import/count-words';
import { readImportAddress, reportHref, undoneHref } from '@/lib/report/import/import-address';
import type { ImportRecords } from '@/lib/report/import/import-records';
import { importView } from '@/lib/report/import/import-view';
import { previewView } from '@/lib/report/import/preview-view';
import { setAsideCsv } from '@/lib/report/import/set-aside-csv';
import { canonicalTemplate } from '@/lib/report/import/template';

const T = Date.parse('2026-07-01T11:00:00Z');

const PREVIEW: ImportPreview = {
  file: 'a.csv',
  format: {
    kind: 'canonical',
    container: 'text',
    sheet: null,
    headerRows: [{ line: 1, role: 'names' }],
    delimiter: ';',
    decimalComma: true,
    encoding: 'utf-8',
    compressed: true,
    columns: [
      { name: 'tag', use: 'tag', tag: null, sensor: null, unit: null },
      { name: 'hot_in[degF]', use: 'reading', tag: null, sensor: 'hotIn', unit: '[degF]' },
    ],
  },
  rows: [
    {
      line: 2,
      text: 'E-1;…',
      readings: [{ tag: 'E-1', time: T, values: { hotIn: 50, coldFlow: 0.01 }, flowBasis: 2 }],
    },
    { line: 3, text: 'broken', readings: [] },
  ],
  faults: [],
  looked: { rows: 2, isWhole: true, setAside: 1 },
  setAside: [
    { line: 3, text: 'broken', reason: 'time-without-zone', field: 'time', message: 'name the zone' },
  ],
  units: [{ tag: 'E-1', timeZone: 'Europe/Lisbon', readings: 1, firstTime: T, lastTime: T }],
  mapping: null,
  plot: { tag: 'E-1', time: [T], values: { hotIn: [50], coldFlow: [0.01] } as never, flowBasis: 2 },
};

describe('the preview of a file', () => {
  it('shows values in the reader’s units beside the text, at the site’s clock', () => {
    const { table } = previewView(PREVIEW, 'us');
    expect(table.sensors.map(({ head, unit }) => [head, unit])).toEqual([
      ['hot in', '°F'],
      ['cold flow', 'gal/min'],
    ]);
    // 50 °C is 122 °F; 0.01 m³/s is 158.5 US gallons a minute (NIST SP 811).
    expect(table.rows[0]).toMatchObject({
      line: 2,
      tag: 'E-1',
      time: '1 Jul 2026, 12:00',
      values: ['122.00', '158.5'],
    });
    expect(table.rows[1]).toMatchObject({ text: 'broken', tag: '', values: ['', ''] });
  });

  it('says what was detected, what would be kept aside, and proposes the site’s zone where it is needed', () => {
    const view = previewView(PREVIEW, 'si');
    expect(view.facts.map(({ value }) => value)).toEqual([
      'one row per unit and time',
      'semicolon',
      'comma (12,5)',
      'UTF-8, gzip',
    ]);
    expect(view.columns[1]).toEqual({
      name: 'hot_in[degF]',
      use: 'reading',
      tag: 'as the row says',
      quantity: 'hot inlet temperature',
      unit: '°F',
    });
    expect(view.setAsideTitle).toBe('1 row would be kept aside; the rest goes in');
    expect([view.needsZone, view.proposedZone, view.canImport]).toEqual([true, 'Europe/Lisbon', true]);
  });

  it('draws a single row without dividing by nothing', () => {
    const charts = previewView(PREVIEW, 'si').charts;
    expect(charts.map(({ name }) => name)).toEqual(['preview-temperatures', 'preview-flows']);
    for (const { axis, summary, scale } of charts) {
      expect(axis.end).toBeGreaterThan(axis.from);
      expect(scale.max).toBeGreaterThan(scale.min);
      expect(summary).not.toMatch(/NaN|undefined/);
    }
  });

  it('offers no import while the header is not clear, or no unit is known', () => {
    const faults = [{ field: 'TI-1', line: 1, message: 'is not in the mapping' }];
    expect(previewView({ ...PREVIEW, faults }, 'si')).toMatchObject({
      canImport: false,
      faults: ['Line 1, TI-1: is not in the mapping'],
    });
    expect(previewView({ ...PREVIEW, units: [], plot: null }, 'si').canImport).toBe(false);
  });
});

const RECORDS: ImportRecords = {
  sites: [{ name: 'Works', timeZone: 'Europe/Lisbon' }],
  tags: ['E-1'],
  timeZones: ['UTC'],
  batches: [
    {
      id: 3,
      source: 'a.csv',
      createdAt: T,
      read: 1002,
      added: 1000,
      replaced: 1,
      unchanged: 0,
      setAside: 1,
      undoneAt: null,
    },
  ],
  batch: null,
};

describe('the import page', () => {
  it('begins with the zone of the only site, and with none where there are several', () => {
    expect(importView(RECORDS, readImportAddress({}), 'si')).toMatchObject({
      timeZone: 'Europe/Lisbon',
      hasUnits: true,
    });
    const sites = [...RECORDS.sites, { name: 'Other', timeZone: 'America/Chicago' }];
    expect(importView({ ...RECORDS, sites }, readImportAddress({}), 'si').timeZone).toBe('');
  });

  it('says what an import did, and what undoing it takes back', () => {
    const batch = {
      record: RECORDS.batches[0]!,
      reasons: [{ reason: 'unknown-tag', count: 1 }],
      rows: [],
      units: [],
    };
    const { report } = importView(
      { ...RECORDS, batch },
      readImportAddress({ batch: '3', changed: 'E-1', of: '7' }),
      'si',
    );
    expect(report!.sentence).toBe(
      '1,002 rows read: 1,000 added, 1 replaced, none unchanged, 1 kept aside. Taken 1 Jul 2026, 12:00 (Europe/Lisbon).',
    );
    expect(report!.takesBack).toContain(
      'removes the 1,000 readings it added and puts back the 1 reading it replaced',
    );
    expect(report!.reasons[0]).toMatchObject({ reason: 'unknown tag', count: '1' });
    expect(report!.moreUnits).toBe(7);
  });

  it('keeps the report in its address, however many units changed', () => {
    const units = Array.from({ length: 300 }, (_, i) => `E/${i} A`);
    const href = reportHref({ batch: 3, units, isAnalysed: false });
    const address = readImportAddress(Object.fromEntries(new URLSearchParams(href.split('?')[1])));
    expect(address).toMatchObject({ batch: 3, changedCount: 300, isAnalysed: false, undone: null });
    expect(address.changed).toEqual(units.slice(0, 20));
    const undone = readImportAddress(
      Object.fromEntries(
        new URLSearchParams(undoneHref({ batch: 3, removed: 5, restored: 1 }).split('?')[1]),
      ),
    );
    expect(importView(RECORDS, undone, 'si').undone).toBe(
      'Import 3 is undone: 5 readings removed, 1 earlier value put back. Results are up to date.',
    );
  });

  it('takes an address that makes no sense for none', () => {
    const statusCells = { total: 12, byWord: { bad: 4, 'no data': 8 } };
    const withStatus = reportHref({ batch: 3, units: [], isAnalysed: true, statusCells });
    const read = readImportAddress(Object.fromEntries(new URLSearchParams(withStatus.split('?')[1])));
    expect(read.statusCells).toEqual(statusCells);
    expect(statusInWords(statusCells)).toBe(
      '12 cells hold a status word in place of a value: 8 × no data, 4 × bad. They count as not measured.',
    );
    expect(readImportAddress({ batch: '-1', undone: 'x', changed: ['', 'a'] })).toMatchObject({
      batch: null,
      undone: null,
      changed: [],
    });
  });
});

describe('the template', () => {
  it.each(['si', 'us'] as const)('is a file the importer reads without a fault (%s)', async (system) => {
    const { csv } = canonicalTemplate(system, 'E-1');
    const bytes = async function* () {
      yield new TextEncoder().encode(csv);
    };
    const options = { knownTags: new Set(['E-1']), mapping: null, timeZone: null };
    const { faults, setAside, rows } = await previewReadings(bytes(), options);
    expect([faults, setAside, rows[0]!.readings.length]).toEqual([[], [], 1]);
    expect(rows[0]!.readings[0]!.values.hotIn).toBeCloseTo(50.2, 1);
  });
});

it('rows kept aside run nothing when a spreadsheet opens them', () => {
  const csv = setAsideCsv([
    { line: 2, text: '=HYPERLINK("x")', reason: 'unknown-tag', field: null, message: '+1' },
  ]);
  expect(csv).toBe(
    'line,reason,field,what to do,row as written\r\n2,unknown-tag,,\'+1,"\'=HYPERLINK(""x"")"\r\n',
  );
});

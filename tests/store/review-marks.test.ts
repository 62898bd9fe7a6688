import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { MarkRecord, StatementRecord } from '@/lib/contract/review';
import { makeChange } from '@/lib/store/entities/change';
import { addMark, marksSince } from '@/lib/store/entities/review-marks';
import { findStatement, saveStatement, statementsOn } from '@/lib/store/entities/statements';
import { unitIds } from '@/lib/store/entities/units';
import { registerFleet } from '@/lib/work/register-fleet';
import { authorOf } from '../support/author-of';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
let ids: Map<string, number>;
beforeEach(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
  ids = await unitIds(database.context.store.entities);
});
afterEach(() => database.remove());

const MONDAY = Date.parse('2026-05-04T08:00:00Z');
const HOUR = 3_600_000;

describe('marks on lines of the weekly review', () => {
  it('are all kept, oldest first, and given out from an instant on', async () => {
    const { entities } = database.context.store;
    const mark: MarkRecord = {
      unitId: ids.get('E-1')!,
      line: 'over-limit 2026-05-02',
      kind: 'note',
      text: 'wäscht der Kunde',
      by: 'process engineer',
      at: MONDAY,
    };
    const later: MarkRecord = {
      ...mark,
      unitId: ids.get('E-2')!,
      kind: 'seen',
      text: null,
      at: MONDAY + HOUR,
    };
    for (const one of [mark, mark, later])
      await makeChange(entities, authorOf(one), (making) => addMark(making, 'E-1', one));
    expect(await marksSince(entities, MONDAY)).toEqual([mark, mark, later]);
    expect(await marksSince(entities, MONDAY + 1)).toEqual([later]);
  });
});

describe('what was said of a unit on a day', () => {
  const record = (changes: Partial<StatementRecord>): StatementRecord => ({
    unitId: ids.get('E-1')!,
    day: 20_577,
    computedAt: MONDAY,
    methodVersion: 4,
    statement: {
      state: 'near-limit',
      cycleStartDay: 20_400,
      limit: 'fouling-resistance',
      allowanceUsed: 0.1 + 0.2,
      allowanceUsedUncertainty: null,
      p10Day: 20_580,
      p50Day: 20_590,
      p90Day: null,
      withinHorizon: 0.85,
      horizonDays: 730,
      crossedDay: null,
      lostDuty: 120_000.5,
      usable: 0.97,
      worstReason: 'spike',
      suspectSinceDay: 20_570,
      drift: { sinceDay: 20_570, change: -0.031, changeUncertainty: 0.004 },
      probableCleanings: [20_100, 20_300],
    },
    isAfterwards: false,
    ...changes,
  });

  it('comes back to the last digit, each unit and day its own', async () => {
    const { entities } = database.context.store;
    const first = record({});
    const second = record({ unitId: ids.get('E-2')!, methodVersion: 5 });
    const before = record({ day: 20_576 });
    for (const one of [first, second, before]) await saveStatement(entities, one);
    expect(await statementsOn(entities, 20_577)).toEqual(
      new Map([
        [first.unitId, first],
        [second.unitId, second],
      ]),
    );
    expect(await findStatement(entities, { unitId: before.unitId, day: before.day })).toEqual(before);
    expect(await findStatement(entities, { unitId: before.unitId, day: 20_578 })).toBeNull();
  });

  it('is replaced by the last analysis of the day', async () => {
    const { entities } = database.context.store;
    const first = record({});
    const again = record({
      computedAt: MONDAY + HOUR,
      statement: { ...first.statement, state: 'over-limit' },
    });
    await saveStatement(entities, first);
    await saveStatement(entities, again);
    expect([...(await statementsOn(entities, 20_577)).values()]).toEqual([again]);
  });
});

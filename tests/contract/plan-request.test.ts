import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { calendarSchema } from '@/lib/contract/calendar';
import { faultsOf } from '@/lib/contract/faults';
import { planRequestSchema } from '@/lib/contract/plan';

const OUTAGE = { name: 'Stop', from: '2027-01-11', to: '2027-01-15' };
const CALENDAR = { site: 'Quay', outages: [OUTAGE], crewHoursPerWeek: 8, notTogether: [] };

function faults(schema: z.ZodType, document: unknown) {
  const parsed = schema.safeParse(document);
  return parsed.success ? [] : faultsOf(parsed.error);
}

const message = 'is not known here: check how it is spelt';

describe('a mistyped word of a plan request or a calendar', () => {
  it.each([
    [{ crewz: 4 }, 'crewz'],
    [{ notTogther: [['A', 'B']] }, 'notTogther'],
    [{ outages: [{ ...OUTAGE, crewhours: 4 }] }, 'outages[0].crewhours'],
    [{ online: { crewHoursPerWeek: 4, sites: 'Quay' } }, 'online.sites'],
    [{ online: [{ crewHoursPerWeek: 4, sites: 'Quay' }] }, 'online[0].sites'],
    [{ locked: [{ tag: 'A', start: '2027-01-11', end: '2027-01-12' }] }, 'locked[0].end'],
  ])('is refused by its name: %j', (document, field) => {
    expect(faults(planRequestSchema, document)).toEqual([{ field, message }]);
  });

  it('is refused in a calendar too, whose outages are those of its own site', () => {
    expect(faults(calendarSchema, CALENDAR)).toEqual([]);
    expect(faults(calendarSchema, { ...CALENDAR, nottogether: [] })).toEqual([
      { field: 'nottogether', message },
    ]);
    expect(faults(calendarSchema, { ...CALENDAR, outages: [{ ...OUTAGE, site: 'Quay' }] })).toEqual([
      { field: 'outages[0].site', message },
    ]);
  });
});

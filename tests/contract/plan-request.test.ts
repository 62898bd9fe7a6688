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

const unlike = 'is not known here: check how it is spelt';
const meaning = (name: string) => `is not known here; did you mean "${name}"?`;

describe('a mistyped word of a plan request or a calendar', () => {
  it.each([
    [{ crewz: 4 }, 'crewz', unlike],
    [{ notTogther: [['A', 'B']] }, 'notTogther', meaning('notTogether')],
    [{ outages: [{ ...OUTAGE, crewhours: 4 }] }, 'outages[0].crewhours', meaning('crewHours')],
    [{ online: { crewHoursPerWeek: 4, sites: 'Quay' } }, 'online.sites', meaning('site')],
    [{ online: [{ crewHoursPerWeek: 4, sites: 'Quay' }] }, 'online[0].sites', meaning('site')],
    [{ locked: [{ tag: 'A', start: '2027-01-11', end: '2027-01-12' }] }, 'locked[0].end', unlike],
  ])('is refused by its name: %j', (document, field, message) => {
    expect(faults(planRequestSchema, document)).toEqual([{ field, message }]);
  });

  it('is refused in a calendar too, whose outages are those of its own site', () => {
    expect(faults(calendarSchema, CALENDAR)).toEqual([]);
    expect(faults(calendarSchema, { ...CALENDAR, nottogether: [] })).toEqual([
      { field: 'nottogether', message: meaning('notTogether') },
    ]);
    expect(faults(calendarSchema, { ...CALENDAR, outages: [{ ...OUTAGE, site: 'Quay' }] })).toEqual([
      { field: 'outages[0].site', message: unlike },
    ]);
  });
});

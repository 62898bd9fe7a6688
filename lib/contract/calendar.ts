import { z } from 'zod';
import { onlyKnown } from './only-known';
import { plannedOutageSchema } from './plan';
import { seenRevision } from './withdrawal';

/** When a site can be cleaned: its outages, its crew outside them, and units that must not be out together. */
export const calendarSchema = onlyKnown({
  site: z.string().min(1).max(80),
  outages: z.array(plannedOutageSchema.omit({ site: true })).max(500),
  crewHoursPerWeek: z.number().min(0).max(100_000).nullable().meta({
    description: 'Hours of work a week for cleanings outside outages; null: none outside outages',
  }),
  notTogether: z.array(z.array(z.string().min(1).max(40)).min(2)),
  revision: seenRevision.meta({
    description: 'State of the calendar that you have seen; refused where somebody has changed it since',
  }),
}).meta({ id: 'Calendar' });

export type Calendar = z.infer<typeof calendarSchema>;

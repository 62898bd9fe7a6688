import { csvText } from '@/lib/report/format/csv';
import type { PlanTableRow } from './plan-table';

/** The plan as it stands, one cleaning a row. */
export function planCsv(rows: readonly PlanTableRow[], currency: string): string {
  const head = [
    'tag',
    'start',
    'end',
    'where',
    'reason',
    'method',
    'crew_hours[h]',
    `cost[${currency}]`,
    `saves[${currency}]`,
    'clean_before',
    'days_late[d]',
    'locked',
  ];
  return csvText([
    head,
    ...rows.map((row) => [
      row.tag,
      row.startWords,
      row.endWords,
      row.where,
      row.reason,
      row.method,
      row.crewHours,
      Math.round(row.cost * 100) / 100,
      row.saves === null ? null : Math.round(row.saves * 100) / 100,
      row.cleanBefore,
      row.daysLate,
      row.isLocked ? 'yes' : 'no',
    ]),
  ]);
}

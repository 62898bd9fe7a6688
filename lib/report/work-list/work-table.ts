import type { PlannedState, WorkList } from '@/lib/contract/planned';
import { csvText } from '@/lib/report/format/csv';
import { REASON_WORDS } from './reason-words';

export const WORK_STATE_WORDS: Record<PlannedState, string> = {
  open: 'open',
  done: 'done',
  'called-off': 'called off',
};

const COLUMNS = [
  'tag',
  'site',
  'from',
  'to',
  'outage',
  'method',
  'crew_hours',
  'cost',
  'saves_projected',
  'currency',
  'reason',
  'state',
  'overdue',
  'cleaning',
  'done_from',
  'done_to',
  'done_method',
  'done_cost',
  'changed_at',
  'changed_by',
  'note',
  'calendar_id',
  'revision',
];

export type WorkTable = { columns: string[]; rows: (string | number | null)[][] };

/** The work list as rows of texts and numbers: what the files and the command line print. */
export function workTable({ work }: WorkList): WorkTable {
  return {
    columns: COLUMNS,
    rows: work.map((piece) => [
      piece.tag,
      piece.site,
      piece.from,
      piece.to,
      piece.outage,
      piece.method,
      piece.crewHours,
      cents(piece.cost),
      cents(piece.saves),
      piece.currency,
      REASON_WORDS[piece.reason],
      WORK_STATE_WORDS[piece.state],
      piece.isOverdue ? 'overdue' : null,
      piece.cleaning,
      piece.done?.from ?? null,
      piece.done?.to ?? null,
      piece.done?.method ?? null,
      cents(piece.done?.cost ?? null),
      piece.changedAt,
      piece.changedBy,
      piece.note,
      piece.calendarId,
      piece.revision,
    ]),
  };
}

export function workCsv(list: WorkList): string {
  const { columns, rows } = workTable(list);
  return csvText([columns, ...rows]);
}

function cents(amount: number | null): number | null {
  return amount === null ? null : Math.round(amount * 100) / 100;
}

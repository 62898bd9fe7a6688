import type { FleetSheetCheck } from '@/lib/contract/fleet-sheet/answer';
import { countOf } from '@/lib/report/format/words';

export type FaultRow = { key: string; place: string; tag: string; heading: string; message: string };
export type UnderstoodRow = { key: string; tag: string; site: string; outcome: string; changes: string[] };

/** A checked workbook as the page shows it: what is wrong beside what was understood. */
export type CheckView = {
  summary: string;
  /** Words of the button that registers; null where nothing can be registered. */
  action: string | null;
  faults: FaultRow[];
  /** Null where all faults are listed. */
  faultsLeftOff: string | null;
  understood: UnderstoodRow[];
  notes: string[];
};

/** Changes of one unit that are listed. */
const MOST_CHANGES = 12;

export function checkView(check: FleetSheetCheck): CheckView {
  const { faults, faultCount, notes } = check;
  const left = faultCount - faults.length;
  return {
    summary: summaryOf(check),
    action: actionOf(check),
    faults: faults.map(({ sheet, cell, tag, heading, message }, i) => ({
      key: `${i} ${sheet} ${cell}`,
      place: cell === null ? sheet : `${sheet}!${cell}`,
      tag: tag ?? '',
      heading: heading ?? '',
      message,
    })),
    faultsLeftOff:
      left === 0 ? null : `${countOf(left, 'more cell')} like these; mend what is listed, and check again.`,
    understood: understoodRows(check),
    notes,
  };
}

function counted({ units }: FleetSheetCheck) {
  const count = (outcome: string) => units.filter((unit) => unit.outcome === outcome).length;
  return { added: count('added'), updated: count('updated'), unchanged: count('unchanged') };
}

function summaryOf(check: FleetSheetCheck): string {
  const { added, updated, unchanged } = counted(check);
  const parts = [
    added > 0 ? countOf(added, 'new unit') : null,
    updated > 0 ? `${countOf(updated, 'unit')} with changes` : null,
    unchanged > 0 ? `${countOf(unchanged, 'unit')} as ${unchanged === 1 ? 'it was' : 'they were'}` : null,
    check.prices > 0 ? countOf(check.prices, 'new price') : null,
    ...check.sites.map(({ name, outcome }) => `site ${name} ${outcome === 'added' ? 'new' : 'changed'}`),
  ].filter((part) => part !== null);
  const understood = parts.length === 0 ? 'No unit could be read.' : `${parts.join(', ')}.`;
  if (check.faultCount === 0) return understood;
  return `${countOf(check.faultCount, 'cell')} to mend first; nothing is registered before. Otherwise: ${understood}`;
}

function actionOf(check: FleetSheetCheck): string | null {
  const { added, updated } = counted(check);
  if (check.faultCount > 0) return null;
  if (added + updated > 0) return `Register ${countOf(added + updated, 'unit')}`;
  return check.prices > 0 || check.sites.length > 0 ? 'Register what is new' : null;
}

function understoodRows({ units }: FleetSheetCheck): UnderstoodRow[] {
  const words = { added: 'new', updated: 'changed', unchanged: 'as it was' } as const;
  return units
    .filter(({ outcome }) => outcome !== 'unchanged')
    .map(({ tag, site, outcome, changes }) => ({
      key: tag,
      tag,
      site,
      outcome: words[outcome],
      changes: changesOf(changes),
    }));
}

function changesOf(changes: FleetSheetCheck['units'][number]['changes']): string[] {
  const said = changes.map(
    ({ heading, before, after }) => `${heading}: ${before ?? 'not stated'} → ${after ?? 'not stated'}`,
  );
  const left = said.length - MOST_CHANGES;
  return left <= 0 ? said : [...said.slice(0, MOST_CHANGES), `and ${countOf(left, 'more change')}`];
}

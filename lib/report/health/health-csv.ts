import type { DataHealth } from '@/lib/contract/data-health';
import { csvText } from '@/lib/report/format/csv';
import { REASON_WORDS, STATE_WORDS } from '@/lib/report/format/words';

/** The data health of every unit as a row, what needs a person first. */
export function healthCsv({ units, days }: DataHealth): string {
  return csvText([
    [
      'tag',
      'service',
      'site',
      'state',
      'data',
      'usable_share',
      `readings_last_${days}_days`,
      'accepted',
      'chief_reason',
      'since',
      'suspect_since',
      'balance_change',
      'balance_change_uncertainty',
      'balance_since',
    ],
    ...units.map((unit) => [
      unit.tag,
      unit.service,
      unit.site,
      STATE_WORDS[unit.state],
      unit.kind,
      unit.usable === null ? null : Number(unit.usable.toFixed(4)),
      unit.readings,
      unit.accepted,
      unit.worstReason === null ? null : REASON_WORDS[unit.worstReason],
      unit.since,
      unit.suspectSince,
      unit.drift === null ? null : Number(unit.drift.change.toFixed(5)),
      unit.drift === null ? null : Number(unit.drift.changeUncertainty.toFixed(5)),
      unit.drift?.since ?? null,
    ]),
  ]);
}

'use client';

import { Button } from '@/app/ui/button/button';
import { FieldError } from '@/app/ui/form/field';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { LIMIT_WORDS } from '@/lib/report/format/words';
import { exampleOf } from '@/lib/report/setup/examples';
import { unitOptions } from '@/lib/report/setup/unit-choices';
import { emptyLimit, type LimitKind, limitUnitKind } from '@/lib/report/setup/unit-draft';
import { Part } from './part';
import styles from './setup.module.css';
import { useField, useSetup } from './setup-context';

const KINDS = Object.keys(LIMIT_WORDS) as LimitKind[];
const hintOf = (kind: LimitKind, system: UnitSystem): string =>
  ({
    'fouling-resistance': `The allowance of the datasheet; example: ${exampleOf('foulingResistance', system)}`,
    cleanliness: 'U over clean U; example: 75 %',
    'outlet-temperature': `What the process can still bear; example: ${exampleOf('outletTemperature', system)}`,
    'pressure-drop': `What the pump can still bear; example: ${exampleOf('pressureDrop', system)}`,
  })[kind];

/** What the clean-by day is judged by; with several limits the one reached first. */
export function LimitsPart() {
  const { draft, set, system } = useSetup();
  const { limits } = draft;
  const whole = useField('limits');
  return (
    <Part title="Limits" lead="The day a limit is reached is the clean-by day; of several, the first counts.">
      <div className={styles.rows}>
        {limits.map((_, place) => (
          <LimitRow
            // biome-ignore lint/suspicious/noArrayIndexKey: limits have no other identity, and hold no state
            key={place}
            place={place}
            remove={() =>
              set(
                'limits',
                limits.filter((_kept, i) => i !== place),
              )
            }
          />
        ))}
        {limits.length === 0 ? <FieldError id={whole.id} error={whole.error} /> : null}
        <p>
          <Button
            id={limits.length === 0 ? whole.id : undefined}
            weight="quiet"
            onClick={() => set('limits', [...limits, emptyLimit('cleanliness', system)])}
          >
            Add a limit
          </Button>
        </p>
      </div>
    </Part>
  );
}

function LimitRow({ place, remove }: { place: number; remove: () => void }) {
  const { draft, set, system } = useSetup();
  const path = `limits[${place}]`;
  const limit = draft.limits[place]!;
  const { id, error, onBlur } = useField(path);
  const unitKind = limitUnitKind(limit.kind);
  const change = (changes: Partial<typeof limit>) => set(path, { ...limit, ...changes });
  const hasStream = limit.kind === 'outlet-temperature' || limit.kind === 'pressure-drop';
  const named = `Limit ${place + 1}`;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a legend would break the row
    <div role="group" aria-label={named} className={`${styles.limit} ${error === null ? '' : styles.wrong}`}>
      <select
        aria-label={`${named}, kind`}
        value={limit.kind}
        onChange={(event) => set(path, emptyLimit(event.target.value as LimitKind, system))}
      >
        {KINDS.map((kind) => (
          <option key={kind} value={kind}>
            {LIMIT_WORDS[kind]}
          </option>
        ))}
      </select>
      {hasStream ? (
        <select
          aria-label={`${named}, stream`}
          value={limit.stream}
          onChange={(event) => change({ stream: event.target.value as 'hot' | 'cold' })}
        >
          <option value="hot">hot stream</option>
          <option value="cold">cold stream</option>
        </select>
      ) : null}
      {limit.kind === 'outlet-temperature' ? (
        <select
          aria-label={`${named}, direction`}
          value={limit.direction}
          onChange={(event) => change({ direction: event.target.value as 'above' | 'below' })}
        >
          <option value="below">not below</option>
          <option value="above">not above</option>
        </select>
      ) : (
        <span className={styles.said}>{limit.kind === 'cleanliness' ? 'not below' : 'not above'}</span>
      )}
      <div className={styles.quantity}>
        <input
          id={id}
          aria-label={`${named}, value`}
          aria-invalid={error === null ? undefined : true}
          aria-describedby={`${id}-hint${error === null ? '' : ` ${id}-error`}`}
          inputMode="decimal"
          autoComplete="off"
          value={limit.value}
          onChange={(event) => change({ value: event.target.value })}
          onBlur={onBlur}
        />
        {unitKind === null ? (
          <span className={styles.suffix}>%</span>
        ) : (
          <select
            aria-label={`${named}, unit of measure`}
            value={limit.unit}
            onChange={(event) => change({ unit: event.target.value })}
          >
            {unitOptions(unitKind, limit.unit).map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        )}
      </div>
      <Button weight="quiet" onClick={remove}>
        Remove<span className="unseen"> limit {place + 1}</span>
      </Button>
      <p id={`${id}-hint`} className={styles.rowHint}>
        {hintOf(limit.kind, system)}
      </p>
      <div className={styles.rowHint}>
        <FieldError id={id} error={error} />
      </div>
    </div>
  );
}

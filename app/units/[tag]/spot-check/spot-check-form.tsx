import { Button, ButtonLink } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import type {
  EntryField,
  SpotCheckForm as Form,
  SpotCheckView,
} from '@/lib/report/spot-check/spot-check-view';
import styles from './spot-check.module.css';

type Props = { form: Form; last: SpotCheckView['last'] };

/** What the instruments show, each value in the unit of measure it was read in. A plain form: its values make the address. */
export function SpotCheckForm({ form, last }: Props) {
  const { action, sides, instruments, at, by, note, faults, units } = form;
  return (
    <form method="get" action={`${action}#result`} className={`${styles.form} screen-only`}>
      {units === '' ? null : <input type="hidden" name="units" value={units} />}
      {faults === 0 ? null : (
        <Notice kind="problem" title="Not worked out yet">
          {faults === 1
            ? 'One field cannot be read; it says why.'
            : `${faults} fields cannot be read; each says why.`}
        </Notice>
      )}
      {sides.map(({ title, fields }) => (
        <FieldGroup key={title} title={title} fields={fields} />
      ))}
      <FieldGroup
        title="Instruments"
        hint="Standard uncertainty (one standard deviation). Blank: that of the unit’s own sensors."
        fields={instruments}
      />
      <fieldset className={styles.group}>
        <legend>The check</legend>
        <div className={styles.fields}>
          <Field id="at" label="Taken at" hint={`local time, ${at.timeZone}`} error={at.error}>
            <input
              {...described('at', at.error, at.timeZone)}
              type="datetime-local"
              name="at"
              defaultValue={at.value}
            />
          </Field>
          <Field id="by" label="By" hint="printed, not stored" error={null}>
            <input
              {...described('by', null, 'by')}
              name="by"
              maxLength={80}
              defaultValue={by}
              autoComplete="off"
            />
          </Field>
          <Field id="note" label="Note" hint="printed, not stored" error={null} isWide>
            <input
              {...described('note', null, 'note')}
              name="note"
              maxLength={300}
              defaultValue={note}
              autoComplete="off"
            />
          </Field>
        </div>
      </fieldset>
      <div className={styles.actions}>
        <Button type="submit" weight="primary">
          Work it out
        </Button>
        {last === null ? null : (
          <ButtonLink href={last.href} weight="quiet">
            Start from the last reading
          </ButtonLink>
        )}
      </div>
    </form>
  );
}

type GroupProps = { title: string; hint?: string; fields: EntryField[] };

function FieldGroup({ title, hint, fields }: GroupProps) {
  return (
    <fieldset className={styles.group}>
      <legend>{title}</legend>
      {hint === undefined ? null : <p className={styles.hint}>{hint}</p>}
      <div className={styles.fields}>
        {fields.map((field) => (
          <QuantityEntry key={field.name} field={field} />
        ))}
      </div>
    </fieldset>
  );
}

function QuantityEntry({ field }: { field: EntryField }) {
  const { name, label, hint, value, unit, unitName, options, error } = field;
  return (
    <Field id={name} label={label} hint={hint} error={error}>
      <div className={styles.quantity}>
        <input
          {...described(name, error, hint)}
          name={name}
          defaultValue={value}
          inputMode="decimal"
          autoComplete="off"
          spellCheck={false}
        />
        <select name={unitName} defaultValue={unit} aria-label={`${label}, unit of measure`}>
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      </div>
    </Field>
  );
}

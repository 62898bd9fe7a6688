'use client';

import { useActionState } from 'react';
import { Button } from '@/app/ui/button/button';
import { Field } from '@/app/ui/form/field';
import entry from '@/app/units/[tag]/entry-form.module.css';
import { NOTHING_YET } from '@/app/units/[tag]/form-outcome';
import { OutcomeField, OutcomeNotice } from '@/app/units/[tag]/outcome-field';
import type { PricesView } from '@/lib/report/prices/prices-view';
import { recordPriceAction } from './price-actions';

const SUPPLIES = 'supplies';

/** What a supply costs and emits from a day on; what is wrong stands at its field, and what was typed stays. */
export function PriceForm({ form }: { form: PricesView['form'] }) {
  const [outcome, submit, isPending] = useActionState(recordPriceAction, NOTHING_YET);
  const field = { form: 'price', outcome };
  const typed = outcome.kind === 'refused' ? outcome.fields : {};
  const units = form.units.map(({ code, label }) => ({ value: code, label }));
  return (
    <form action={submit} className={`${entry.form} screen-only`}>
      <input type="hidden" name="after" value={form.after} />
      <Pick
        name="site"
        label="Site"
        value={typed.site ?? form.site}
        options={form.sites.map(({ name, currency }) => ({ value: name, label: `${name} (${currency})` }))}
      />
      <OutcomeField
        {...field}
        name="supply"
        label="Supply"
        hint="as datasheets name it: natural gas, electricity, steam"
        list={SUPPLIES}
        maxLength={60}
        defaultValue={form.supply}
        required
      />
      <datalist id={SUPPLIES}>
        {form.supplies.map((supply) => (
          <option key={supply} value={supply} />
        ))}
      </datalist>
      <OutcomeField {...field} name="from" label="First day" type="date" required />
      <OutcomeField
        {...field}
        name="amount"
        label="Price"
        hint="in the site’s currency; empty: the one before goes on"
        inputMode="decimal"
      />
      <Pick name="per" label="Price per" value={typed.per ?? 'kW.h'} options={units} />
      <OutcomeField
        {...field}
        name="kg"
        label="Carbon factor"
        hint="kg CO₂e; empty: the one before goes on"
        inputMode="decimal"
      />
      <Pick name="carbonPer" label="Factor per" value={typed.carbonPer ?? 'kW.h'} options={units} />
      <OutcomeField
        {...field}
        name="note"
        label="Note"
        hint="contract, invoice, table"
        maxLength={500}
        isWide
      />
      <div className={entry.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Pricing anew …' : 'Add'}
        </Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}

type PickProps = { name: string; label: string; value: string; options: { value: string; label: string }[] };

function Pick({ name, label, value, options }: PickProps) {
  const id = `price-${name}`;
  return (
    <Field id={id} label={label} error={null}>
      {/* A form empties itself when its action is done; a new key brings what was chosen back. */}
      <select key={value} id={id} name={name} defaultValue={value}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Field>
  );
}

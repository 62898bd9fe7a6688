'use client';

import { useActionState } from 'react';
import { Button } from '@/app/ui/button/button';
import { described, Field, FieldError } from '@/app/ui/form/field';
import entry from '@/app/units/[tag]/entry-form.module.css';
import { type FormOutcome, NOTHING_YET } from '@/app/units/[tag]/form-outcome';
import { OutcomeField, OutcomeNotice } from '@/app/units/[tag]/outcome-field';
import type { TokensView } from '@/lib/report/tokens/tokens-view';
import { NewSecret } from './new-secret';
import { makeTokenAction } from './token-actions';
import type { TokenOutcome } from './token-outcome';

type Props = Pick<TokensView, 'scopes' | 'expiries' | 'usualExpiry'>;

/** What a new token is for, what it may do and how long it holds. */
export function TokenForm({ scopes, expiries, usualExpiry }: Props) {
  const [outcome, submit, isPending] = useActionState<TokenOutcome, FormData>(makeTokenAction, NOTHING_YET);
  const told: FormOutcome = outcome.kind === 'made' ? NOTHING_YET : outcome;
  const expiryError = told.kind === 'refused' ? (told.errors.expires ?? null) : null;
  const typed = told.kind === 'refused' ? told.fields : {};
  return (
    <>
      {outcome.kind === 'made' ? <NewSecret name={outcome.name} secret={outcome.secret} /> : null}
      <form action={submit} className={entry.form}>
        <OutcomeField
          form="token"
          outcome={told}
          name="name"
          label="Program"
          hint="such as: historian bridge, north site"
          maxLength={80}
          autoComplete="off"
          required
        />
        <Field id="token-expires" label="Holds" error={expiryError}>
          {/* A form empties itself when its action is done; a new key brings what was chosen back. */}
          <select
            key={typed.expires ?? usualExpiry}
            {...described('token-expires', expiryError, undefined)}
            name="expires"
            defaultValue={typed.expires ?? usualExpiry}
          >
            {expiries.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </Field>
        <Scopes scopes={scopes} outcome={told} />
        <div className={entry.end}>
          <Button type="submit" weight="primary" disabled={isPending}>
            {isPending ? 'Making it …' : 'Make the token'}
          </Button>
        </div>
        <OutcomeNotice outcome={told} />
      </form>
    </>
  );
}

function Scopes({ scopes, outcome }: { scopes: TokensView['scopes']; outcome: FormOutcome }) {
  const chosen = outcome.kind === 'refused' ? (outcome.fields.scopes ?? '').split(',') : ['look'];
  const error = outcome.kind === 'refused' ? (outcome.errors.scopes ?? null) : null;
  return (
    <fieldset className={entry.choices} aria-describedby={error === null ? undefined : 'token-scopes-error'}>
      <legend>May</legend>
      {scopes.map(({ value, label }) => (
        <div key={value} className={entry.choice}>
          <input
            id={`token-${value}`}
            type="checkbox"
            name="scopes"
            value={value}
            defaultChecked={chosen.includes(value)}
          />
          <label htmlFor={`token-${value}`}>{value}</label>
          <span className={entry.effect}>{label}</span>
        </div>
      ))}
      <FieldError id="token-scopes" error={error} />
    </fieldset>
  );
}

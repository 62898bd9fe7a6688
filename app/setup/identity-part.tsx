'use client';

import { useId } from 'react';
import { described, Field } from '@/app/ui/form/field';
import type { Site } from '@/lib/contract/fleet-file';
import { TextField } from './fields';
import { Part } from './part';
import { useField, useSetup } from './setup-context';

const NEW_SITE = '';
const CURRENCIES = [
  'EUR',
  'USD',
  'GBP',
  'CHF',
  'SEK',
  'NOK',
  'DKK',
  'PLN',
  'CAD',
  'AUD',
  'BRL',
  'INR',
  'JPY',
  'CNY',
];

type Props = { sites: Site[]; timeZones: string[]; isKnown: boolean };

/** Tag, service and site; the site's zone and currency belong to all its units and are asked for once. */
export function IdentityPart({ sites, timeZones, isKnown }: Props) {
  const { draft } = useSetup();
  const [zonesId, currenciesId] = [useId(), useId()];
  return (
    <Part title="Identity">
      <TextField
        path="tag"
        label="Tag"
        isReadOnly={isKnown}
        hint={
          isKnown
            ? 'The tag names the unit in every file and stays.'
            : 'As the readings file writes it: E-101'
        }
      />
      <TextField
        path="service"
        label="Service"
        hint="Optional: what it does, such as Product cooler, line 2"
      />
      {sites.length === 0 ? null : <SiteField sites={sites} />}
      {draft.site.isNew ? (
        <>
          <TextField path="site.name" label="Name of the site" hint="Example: North works" />
          <TextField
            path="site.timeZone"
            label="Time zone of the site"
            list={zonesId}
            hint="Days are this zone’s days: Europe/Lisbon"
          />
          <TextField path="site.currency" label="Currency" list={currenciesId} hint="Three letters: EUR" />
          <datalist id={zonesId}>
            {timeZones.map((zone) => (
              <option key={zone} value={zone} />
            ))}
          </datalist>
          <datalist id={currenciesId}>
            {CURRENCIES.map((code) => (
              <option key={code} value={code} />
            ))}
          </datalist>
        </>
      ) : null}
    </Part>
  );
}

function SiteField({ sites }: { sites: Site[] }) {
  const { draft, set } = useSetup();
  const { id, error } = useField('site.name');
  const choiceId = `${id}-choice`;
  const pick = (name: string) => {
    const site = sites.find((known) => known.name === name);
    set('site', site ? { ...site, isNew: false } : { name: '', timeZone: '', currency: 'EUR', isNew: true });
  };
  const hint = draft.site.isNew ? undefined : `${draft.site.timeZone}, ${draft.site.currency}`;
  const shownError = draft.site.isNew ? null : error;
  return (
    <Field id={draft.site.isNew ? choiceId : id} label="Site" hint={hint} error={shownError}>
      <select
        {...described(draft.site.isNew ? choiceId : id, shownError, hint)}
        value={draft.site.isNew ? NEW_SITE : draft.site.name}
        onChange={(event) => pick(event.target.value)}
      >
        {sites.map(({ name }) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
        <option value={NEW_SITE}>a new site …</option>
      </select>
    </Field>
  );
}

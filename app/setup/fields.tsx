'use client';

import type { ReactNode } from 'react';
import { described, Field } from '@/app/ui/form/field';
import type { QuantityDraft } from '@/lib/report/setup/quantity-draft';
import { type FormKind, unitOptions } from '@/lib/report/setup/unit-choices';
import styles from './setup.module.css';
import { useField } from './setup-context';

type Common = { path: string; label: string; hint?: ReactNode; isWide?: boolean };

type TextProps = Common & { placeholder?: string; list?: string; isReadOnly?: boolean; isNumber?: boolean };

/** A line of text, or a number as typed: commas and points are read later, nothing is lost on the way. */
export function TextField({ path, label, hint, isWide, placeholder, list, isReadOnly, isNumber }: TextProps) {
  const { id, value, set, onBlur, error } = useField(path);
  return (
    <Field id={id} label={label} hint={hint} error={error} isWide={isWide}>
      <input
        {...described(id, error, hint)}
        value={value as string}
        placeholder={placeholder}
        list={list}
        readOnly={isReadOnly}
        inputMode={isNumber ? 'decimal' : undefined}
        autoComplete="off"
        spellCheck={isNumber ? false : undefined}
        onChange={(event) => set(event.target.value)}
        onBlur={onBlur}
      />
    </Field>
  );
}

/** A note of several lines, kept as it is written. */
export function NoteField({ path, label, hint }: Common) {
  const { id, value, set, onBlur, error } = useField(path);
  return (
    <Field id={id} label={label} hint={hint} error={error} isWide>
      <textarea
        {...described(id, error, hint)}
        className={styles.note}
        value={value as string}
        rows={3}
        onChange={(event) => set(event.target.value)}
        onBlur={onBlur}
      />
    </Field>
  );
}

/** A number with a fixed unit of measure after it. */
export function NumberField({ suffix, ...rest }: Common & { suffix?: string; placeholder?: string }) {
  return <TextField {...rest} label={suffix ? `${rest.label}, ${suffix}` : rest.label} isNumber />;
}

type SelectProps = Common & { faultPath?: string; options: readonly { value: string; label: string }[] };

export function SelectField({ path, faultPath, label, hint, isWide, options }: SelectProps) {
  const { id, value, set, onBlur, error } = useField(path, faultPath);
  return (
    <Field id={id} label={label} hint={hint} error={error} isWide={isWide}>
      <select
        {...described(id, error, hint)}
        value={value as string}
        onChange={(event) => set(event.target.value)}
        onBlur={onBlur}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Field>
  );
}

type QuantityProps = Common & {
  /** Where the document holds it elsewhere than the draft. */
  faultPath?: string;
  kind: FormKind;
  placeholder?: string;
  allowsPercent?: boolean;
  /** Several numbers, for which a keypad of digits lacks the blank. */
  isList?: boolean;
};

/** A number and the unit of measure it was written in, which is kept as it is. */
export function QuantityField({
  path,
  kind,
  label,
  hint,
  isWide,
  placeholder,
  allowsPercent,
  faultPath,
  isList,
}: QuantityProps) {
  const { id, value, set, onBlur, error } = useField(path, faultPath);
  const quantity = value as QuantityDraft;
  const isPercent = quantity.unit === '%';
  const options = unitOptions(kind, isPercent ? '' : quantity.unit);
  const all = allowsPercent ? [{ value: '%', label: '% of reading' }, ...options] : options;
  return (
    <Field id={id} label={label} hint={hint} error={error} isWide={isWide}>
      <div className={styles.quantity}>
        <input
          {...described(id, error, hint)}
          value={quantity.value}
          placeholder={placeholder}
          inputMode={isList ? undefined : 'decimal'}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => set({ ...quantity, value: event.target.value })}
          onBlur={onBlur}
        />
        <select
          value={quantity.unit}
          aria-label={`${label}, unit of measure`}
          onChange={(event) => set({ ...quantity, unit: event.target.value })}
        >
          {all.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      </div>
    </Field>
  );
}

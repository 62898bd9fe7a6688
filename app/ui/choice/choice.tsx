'use client';

import { useId } from 'react';
import styles from './choice.module.css';

type Option<Value extends string> = { value: Value; label: string; hint?: string };

type Props<Value extends string> = {
  label: string;
  options: readonly Option<Value>[];
  value: Value;
  onChoose: (value: Value) => void;
  /** Shows the label before the options; else it is read out only. */
  isLabelShown?: boolean;
};

/** One of a few: native radio buttons drawn as one strip, the chosen one filled and bold. */
export function Choice<Value extends string>({
  label,
  options,
  value,
  onChoose,
  isLabelShown,
}: Props<Value>) {
  const name = useId();
  return (
    <fieldset className={styles.choice}>
      <legend className={isLabelShown ? styles.legend : 'unseen'}>{label}</legend>
      <div className={styles.strip}>
        {options.map((option) => (
          <label key={option.value} className={styles.option} title={option.hint}>
            <input
              className={styles.input}
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChoose(option.value)}
            />
            <span>
              {option.label}
              {option.hint ? <span className="unseen">, {option.hint}</span> : null}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

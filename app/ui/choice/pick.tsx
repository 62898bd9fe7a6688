'use client';

import styles from './choice.module.css';

type Props<Value extends string> = {
  label: string;
  isLabelHidden?: boolean;
  options: readonly { value: Value; label: string }[];
  value: Value;
  onPick: (value: Value) => void;
};

/** One of several in a native select, its label in front. */
export function Pick<Value extends string>({ label, isLabelHidden, options, value, onPick }: Props<Value>) {
  return (
    <label className={styles.pick}>
      <span className={isLabelHidden ? 'unseen' : styles.legend}>{label}</span>
      <select value={value} onChange={(event) => onPick(event.target.value as Value)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </label>
  );
}

'use client';

import styles from './entry-form.module.css';

type Props = {
  /** Name of the form, so that ids differ between forms of a page. */
  form: string;
  name: string;
  value: string;
  label: string;
  /** What choosing it does. */
  effect: string;
  isChosen: boolean;
  onChoose?: () => void;
};

/** One of a few ways to answer, with what it does under it. */
export function RadioChoice({ form, name, value, label, effect, isChosen, onChoose }: Props) {
  const id = `${form}-${name}-${value}`;
  return (
    <div className={styles.choice}>
      <input
        type="radio"
        id={id}
        name={name}
        value={value}
        aria-describedby={`${id}-effect`}
        defaultChecked={isChosen}
        onChange={onChoose}
      />
      <label htmlFor={id}>{label}</label>
      <p id={`${id}-effect`} className={styles.effect}>
        {effect}
      </p>
    </div>
  );
}

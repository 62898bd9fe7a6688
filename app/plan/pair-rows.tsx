import { useState } from 'react';
import { Button } from '@/app/ui/button/button';
import { Pick } from '@/app/ui/choice/pick';
import styles from './calendar.module.css';

type Props = { pairs: string[][]; tags: string[]; change: (pairs: string[][]) => void };

/** Units of which one must run while the other is out. */
export function PairRows({ pairs, tags, change }: Props) {
  const [one, setOne] = useState(tags[0] ?? '');
  const [other, setOther] = useState(tags[1] ?? '');
  const isKnown = pairs.some((pair) => pair.includes(one) && pair.includes(other));
  const options = tags.map((tag) => ({ value: tag, label: tag }));
  return (
    <fieldset className={styles.group}>
      <legend>Not out together</legend>
      {pairs.length === 0 ? <p className={styles.none}>Any units may be out together.</p> : null}
      <ul className={styles.pairs}>
        {pairs.map((pair, nth) => (
          <li key={pair.join(' ')}>
            {pair.join(' and ')}
            <Button
              weight="quiet"
              onClick={() => change(pairs.toSpliced(nth, 1))}
              aria-label={`Let ${pair.join(' and ')} be out together`}
            >
              Remove
            </Button>
          </li>
        ))}
      </ul>
      {tags.length < 2 ? null : (
        <div className={styles.newPair}>
          <Pick label="Unit" options={options} value={one} onPick={setOne} />
          <Pick label="and" options={options} value={other} onPick={setOther} />
          <Button disabled={one === other || isKnown} onClick={() => change([...pairs, [one, other]])}>
            Keep apart
          </Button>
        </div>
      )}
    </fieldset>
  );
}

'use client';

import { useActionState } from 'react';
import { useRight } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import { NOTHING_YET } from '@/app/units/[tag]/form-outcome';
import { recordPriceAction } from './price-actions';
import styles from './prices.module.css';

type Props = { entry: { site: string; supply: string; from: string; after: number }; from: string };

/** Takes one entry back; the one before it then goes on. */
export function WithdrawPrice({ entry, from }: Props) {
  const [outcome, submit, isPending] = useActionState(recordPriceAction, NOTHING_YET);
  const mayWithdraw = useRight('price');
  if (!mayWithdraw) return null;
  return (
    <form action={submit} className={`${styles.withdraw} screen-only`}>
      {Object.entries({ ...entry, withdraw: 'yes' }).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Button
        type="submit"
        weight="quiet"
        disabled={isPending}
        aria-label={`Withdraw ${entry.supply} from ${from}`}
      >
        {isPending ? 'Withdrawing …' : 'Withdraw'}
      </Button>
      {outcome.kind === 'refused' ? (
        <p role="alert" className={styles.refused}>
          {Object.values(outcome.errors).join('; ') || outcome.message}
        </p>
      ) : null}
    </form>
  );
}

import Link from 'next/link';
import styles from './choices.module.css';

type Props = {
  label: string;
  choices: readonly { label: string; href: string; isCurrent: boolean }[];
};

/** One of a few, as links: the choice stands in the address. */
export function Choices({ label, choices }: Props) {
  return (
    <nav className={`${styles.choices} screen-only`} aria-label={label}>
      {choices.map((choice) => (
        <Link
          key={choice.label}
          href={choice.href}
          scroll={false}
          aria-current={choice.isCurrent ? 'true' : undefined}
        >
          {choice.label}
        </Link>
      ))}
    </nav>
  );
}

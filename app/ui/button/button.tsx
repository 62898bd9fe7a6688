import Link from 'next/link';
import type { ButtonHTMLAttributes, ReactNode } from 'react';
import styles from './button.module.css';

type Weight = 'primary' | 'plain' | 'quiet';

/** A native button: `primary` once per form, `plain` elsewhere, `quiet` inside tables and headings. */
export function Button({
  weight = 'plain',
  type = 'button',
  ...rest
}: ButtonHTMLAttributes<HTMLButtonElement> & { weight?: Weight }) {
  return <button {...rest} type={type} className={`${styles.button} ${styles[weight]}`} />;
}

/** A link with the looks of a button, for going somewhere. */
export function ButtonLink({
  href,
  weight = 'plain',
  children,
}: {
  href: string;
  weight?: Weight;
  children: ReactNode;
}) {
  return (
    <Link href={href} className={`${styles.button} ${styles[weight]}`}>
      {children}
    </Link>
  );
}

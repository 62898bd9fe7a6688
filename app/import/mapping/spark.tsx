import styles from './mapping.module.css';

const WIDTH = 120;
const HEIGHT = 26;
const INSET = 2;

/** A column's numbers in the order of the file, from its least to its greatest; the range stands beside it in words. */
export function Spark({ numbers }: { numbers: (number | null)[] }) {
  const known = numbers.filter((value) => value !== null);
  if (known.length < 2) return null;
  const [low, high] = [Math.min(...known), Math.max(...known)];
  const x = (place: number) => INSET + (place / (numbers.length - 1)) * (WIDTH - 2 * INSET);
  const y = (value: number) =>
    high === low ? HEIGHT / 2 : HEIGHT - INSET - ((value - low) / (high - low)) * (HEIGHT - 2 * INSET);
  const points = numbers.flatMap((value, place) =>
    value === null ? [] : [`${x(place).toFixed(1)},${y(value).toFixed(1)}`],
  );
  return (
    <svg className={styles.spark} width={WIDTH} height={HEIGHT} aria-hidden="true">
      <polyline points={points.join(' ')} />
    </svg>
  );
}

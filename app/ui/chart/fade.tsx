/** The projection grows paler the further it looks ahead. */
export function Fade({ id }: { id: string }) {
  return (
    <linearGradient id={id} x1="0" x2="1" y1="0" y2="0">
      <stop offset="0" stopColor="var(--band)" stopOpacity="0.55" />
      <stop offset="1" stopColor="var(--band)" stopOpacity="0.12" />
    </linearGradient>
  );
}

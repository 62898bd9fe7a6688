/** How often the line is written anew [ms]. */
const EVERY_MS = 250;
const CLEAR_LINE = '\r\u001b[K';

export type ProgressLine = { show: (done: number, of: number) => void; end: () => void };

/** How far a long work has come, in one line that is written over; nothing where nobody looks at a terminal. */
export function progressLine(what: string): ProgressLine {
  const began = performance.now();
  const { stderr } = process;
  let last = 0;
  return {
    show: (done, of) => {
      const now = performance.now();
      if (!stderr.isTTY || (now - last < EVERY_MS && done < of)) return;
      last = now;
      stderr.write(`${CLEAR_LINE}${progressText(what, { done, of, seconds: (now - began) / 1000 })}`);
    },
    end: () => {
      if (stderr.isTTY && last > 0) stderr.write(CLEAR_LINE);
    },
  };
}

/** "120 of 1000 units, 48.0/s, 18 s left". */
export function progressText(
  what: string,
  { done, of, seconds }: { done: number; of: number; seconds: number },
): string {
  const rate = done / seconds;
  const left = rate > 0 ? `, ${rate.toFixed(1)}/s, ${Math.ceil((of - done) / rate)} s left` : '';
  return `${done} of ${of} ${what}${left}`;
}

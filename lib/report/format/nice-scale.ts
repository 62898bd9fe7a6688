/** A value axis: its ends and the ticks between, all round numbers, and the decimals the ticks need. */
export type ValueScale = { min: number; max: number; ticks: number[]; decimals: number };

/** Round ends and at most about `count` steps that hold every value given; a flat or empty input gets room around it. */
export function niceScale(least: number, greatest: number, count = 4): ValueScale {
  const hasRange = Number.isFinite(least) && Number.isFinite(greatest) && greatest > least;
  const centre = Number.isFinite(least) ? least : 0;
  const low = hasRange ? least : centre - Math.max(Math.abs(centre) * 0.05, 1e-9);
  const high = hasRange ? greatest : centre + Math.max(Math.abs(centre) * 0.05, 1e-9);
  const step = niceStep((high - low) / count);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.floor(low / step + 1e-9);
  const last = Math.ceil(high / step - 1e-9);
  const ticks = Array.from({ length: last - first + 1 }, (_, i) =>
    Number(((first + i) * step).toFixed(decimals)),
  );
  return { min: ticks[0]!, max: ticks.at(-1)!, ticks, decimals };
}

/** The least of 1, 2 or 5 times a power of ten that is not below the wish. */
function niceStep(wish: number): number {
  const power = 10 ** Math.floor(Math.log10(wish));
  const multiple = [1, 2, 5, 10].find((candidate) => candidate * power >= wish * (1 - 1e-9)) ?? 10;
  return multiple * power;
}

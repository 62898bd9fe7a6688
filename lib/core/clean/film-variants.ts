import type { Exchanger } from '../exchange/exchanger';

/** How far an exponent, or the split of the films, is moved to see what hangs on it [-]. */
export const FILM_STEP = 0.1;

/** One assumption of the clean films moved: which, which way, and the films with it. */
export type FilmVariant = {
  name: 'hotExponent' | 'coldExponent' | 'hotShare';
  step: number;
  films: Exchanger['films'];
};

/**
 * The films with each exponent, and the split between hot and cold film, moved by ±0.1: what a result changes with them is
 * how much hangs on what the datasheet leaves to be assumed. A step that leaves the possible range stops at its end.
 *
 * @param films shares [-] and exponents [-]
 * @returns six variants; exponents stay in 0 to 1, the hot share in 0 to 1 − wall share
 * @range  any films
 * @source JCGM 100:2008 (GUM), 5.1.4: sensitivities found by varying one input and holding the others
 * @check  tests/core/clean/film-variants.test.ts
 */
export function filmVariants(films: Exchanger['films']): FilmVariant[] {
  const within = (value: number, greatest: number) => Math.min(greatest, Math.max(0, value));
  return [-FILM_STEP, FILM_STEP].flatMap((step): FilmVariant[] => [
    { name: 'hotExponent', step, films: { ...films, hotExponent: within(films.hotExponent + step, 1) } },
    { name: 'coldExponent', step, films: { ...films, coldExponent: within(films.coldExponent + step, 1) } },
    {
      name: 'hotShare',
      step,
      films: { ...films, hotShare: within(films.hotShare + step, 1 - films.wallShare) },
    },
  ]);
}

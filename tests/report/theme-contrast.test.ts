import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../app/ui/theme.css', import.meta.url), 'utf8');
const THEMES = ['light', 'dark'] as const;
const SURFACES = ['ground', 'surface', 'hover'];
// WCAG 2.2, 1.4.3 for text and 1.4.11 for marks, controls and focus.
const TEXT_RATIO = 4.5;
const MARK_RATIO = 3;
const TEXTS = ['ink', 'ink-soft', 'ink-faint', 'over-text', 'near-text', 'absent-text'];
const MARKS = ['over', 'near', 'absent', 'trace', 'trace-soft', 'control', 'focus'];

function colour(token: string, theme: (typeof THEMES)[number]): string {
  const found = css.match(new RegExp(`--${token}: light-dark\\((#[0-9a-f]{6}), (#[0-9a-f]{6})\\)`));
  if (!found) throw new Error(`no colour --${token} in theme.css`);
  return theme === 'light' ? found[1]! : found[2]!;
}

/** Relative luminance as WCAG 2.2 defines it. */
function luminance(hex: string): number {
  const channel = (at: number) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

function ratio(one: string, other: string): number {
  const [high, low] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

describe('colours of the screens', () => {
  it('black on white has the ratio 21 that WCAG states', () => {
    expect(ratio('#000000', '#ffffff')).toBeCloseTo(21, 6);
  });

  for (const theme of THEMES) {
    for (const surface of SURFACES) {
      it.each(TEXTS)(`text %s on ${surface} in the ${theme} theme reaches ${TEXT_RATIO}:1`, (token) => {
        expect(ratio(colour(token, theme), colour(surface, theme))).toBeGreaterThanOrEqual(TEXT_RATIO);
      });
      it.each(MARKS)(`mark %s on ${surface} in the ${theme} theme reaches ${MARK_RATIO}:1`, (token) => {
        expect(ratio(colour(token, theme), colour(surface, theme))).toBeGreaterThanOrEqual(MARK_RATIO);
      });
    }

    it(`text and marks keep their ratio on outage bands in the ${theme} theme`, () => {
      for (const token of TEXTS) {
        expect(ratio(colour(token, theme), colour('outage', theme)), token).toBeGreaterThanOrEqual(
          TEXT_RATIO,
        );
      }
      for (const token of ['over', 'near', 'absent', 'trace']) {
        expect(ratio(colour(token, theme), colour('outage', theme)), token).toBeGreaterThanOrEqual(
          MARK_RATIO,
        );
      }
    });
  }
});

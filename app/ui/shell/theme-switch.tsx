'use client';

import { useState } from 'react';
import { Choice } from '../choice/choice';
import type { Theme } from '../preferences';
import { saveCookie } from './save-cookie';

const OPTIONS = [
  { value: 'auto', label: 'Auto', hint: 'as the device' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
] as const;

/** Light, dark or as the device; changes the page at once and is kept as a cookie. */
export function ThemeSwitch({ saved }: { saved: Theme }) {
  const [theme, setTheme] = useState(saved);
  const choose = (next: Theme) => {
    saveCookie('theme', next);
    if (next === 'auto') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = next;
    setTheme(next);
  };
  return <Choice label="Theme" options={OPTIONS} value={theme} onChoose={choose} />;
}

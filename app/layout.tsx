import '@fontsource-variable/inter/wght.css';
import './ui/theme.css';
import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { readTheme, readUnitSystem } from './ui/preferences';
import { Shell } from './ui/shell/shell';

export const metadata: Metadata = {
  title: { default: 'Cleanby', template: '%s · Cleanby' },
  description: 'Clean-by dates for a fleet of heat exchangers, from the readings a plant already logs',
};

export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' };

export default async function Layout({ children }: { children: ReactNode }) {
  const [theme, units] = await Promise.all([readTheme(), readUnitSystem()]);
  return (
    <html lang="en-GB" data-theme={theme === 'auto' ? undefined : theme} suppressHydrationWarning>
      <body>
        <Shell theme={theme} units={units}>
          {children}
        </Shell>
      </body>
    </html>
  );
}

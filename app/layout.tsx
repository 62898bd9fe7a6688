import '@fontsource-variable/inter/wght.css';
import './ui/theme.css';
import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { ShellOf } from './access/shell-of';
import { readTheme } from './ui/preferences';

export const metadata: Metadata = {
  title: { default: 'Cleanby', template: '%s · Cleanby' },
  description: 'Clean-by dates for a fleet of heat exchangers, from the readings a plant already logs',
};

export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' };

export default async function Layout({ children }: { children: ReactNode }) {
  const theme = await readTheme();
  return (
    <html lang="en-GB" data-theme={theme === 'auto' ? undefined : theme} suppressHydrationWarning>
      <body>
        <ShellOf>{children}</ShellOf>
      </body>
    </html>
  );
}

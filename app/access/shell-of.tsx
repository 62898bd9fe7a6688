import type { ReactNode } from 'react';
import { PAGE_RULES, type PagePath } from '@/lib/auth/rules';
import { mayEnter } from '@/lib/auth/visitor';
import { readTheme, readUnitSystem } from '../ui/preferences';
import { Shell } from '../ui/shell/shell';
import { readVisitor } from './open-page';
import { PersonMenu } from './person-menu';
import { RightsProvider } from './rights';

/** The frame of every page for whoever looks at it: who that is, and only the places that one may open. */
export async function ShellOf({ children }: { children: ReactNode }) {
  const [theme, units, visitor] = await Promise.all([readTheme(), readUnitSystem(), readVisitor()]);
  const pages = Object.keys(PAGE_RULES) as PagePath[];
  const open = visitor === null ? [] : pages.filter((path) => mayEnter(PAGE_RULES[path], visitor));
  const person = visitor === null ? null : <PersonMenu name={visitor.actor.name} role={visitor.role ?? ''} />;
  return (
    <Shell theme={theme} units={units} open={open} person={person}>
      <RightsProvider rights={[...(visitor?.rights ?? [])]}>{children}</RightsProvider>
    </Shell>
  );
}

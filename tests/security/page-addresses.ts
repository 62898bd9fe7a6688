import { pagePaths } from './walk-router';

/** What stands for the segments in brackets when a page of the demonstration is asked for. */
const SEGMENTS: Record<string, string> = { tag: 'SC-152', name: 'none' };

/** An address of every page there is. */
export function pageAddresses(): string[] {
  return pagePaths().map(pageAddress);
}

export function pageAddress(path: string): string {
  return path.replace(/\[([a-z]+)\]/g, (_, name: string) => SEGMENTS[name] ?? '1');
}

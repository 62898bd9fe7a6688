import type { ChartsView } from '@/lib/report/unit/charts-view';
import { type PackedCharts, unpackCharts } from '@/lib/report/unit/packed-charts';
import type { FigureName } from '@/lib/report/unit/unit-address';

/** The charts of another address of the page. @throws where the server does not answer with them */
export async function fetchCharts(href: string, signal?: AbortSignal): Promise<ChartsView> {
  return ask(href, {}, signal);
}

/** Every row of one figure: the page itself holds only what can be seen. */
export async function fetchEveryRow(href: string, figure: FigureName): Promise<ChartsView> {
  return ask(href, { columns: 'all', figure });
}

async function ask(href: string, extra: Record<string, string>, signal?: AbortSignal): Promise<ChartsView> {
  const address = new URL(href, window.location.href);
  address.pathname = `/api${address.pathname}/charts`;
  address.hash = '';
  for (const [name, value] of Object.entries(extra)) address.searchParams.set(name, value);
  const response = await fetch(address, { signal });
  if (!response.ok) throw new Error(`the charts were refused: ${response.status}`);
  return unpackCharts((await response.json()) as PackedCharts);
}

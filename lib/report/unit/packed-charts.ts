import type { ChartView } from '@/lib/report/format/chart-view';
import type { ChartsView, PageChart } from './charts-view';

/** Parts of a chart that several of one page have in common. */
const COMMON = ['axis', 'time', 'marks', 'spans', 'lane'] as const;
type Common = (typeof COMMON)[number];

/** Charts as they are sent: what several have in common stands once, in `parts`, and in the charts by its place there. */
export type PackedCharts = Omit<ChartsView, 'charts'> & {
  parts: unknown[];
  charts: (Omit<PageChart, 'view'> & {
    view: Omit<ChartView, Common>;
    common: Partial<Record<Common, number>>;
  })[];
};

export function packCharts({ charts, ...rest }: ChartsView): PackedCharts {
  const places = new Map<unknown, number>();
  const placeOf = (part: unknown) => {
    const place = places.get(part) ?? places.size;
    places.set(part, place);
    return place;
  };
  const packed = charts.map(({ view, ...chart }) => {
    const { axis, time, marks, spans, lane, ...own } = view;
    const parts = { axis, time, marks, spans, lane };
    const given = COMMON.filter((name) => parts[name] !== undefined);
    return {
      ...chart,
      view: own,
      common: Object.fromEntries(given.map((name) => [name, placeOf(parts[name])])),
    };
  });
  return { ...rest, charts: packed, parts: [...places.keys()] };
}

export function unpackCharts({ charts, parts, ...rest }: PackedCharts): ChartsView {
  return {
    ...rest,
    charts: charts.map(({ view, common, ...chart }) => {
      const shared = Object.entries(common).map(([name, place]) => [name, parts[place]]);
      return { ...chart, view: { ...view, ...Object.fromEntries(shared) } as ChartView };
    }),
  };
}

import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import {
  coCurrentEffectiveness,
  counterCurrentEffectiveness,
  counterCurrentTransferUnits,
} from '@/lib/core/exchange/pure-flow';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { CASES, crossflow, mirrored } from '../../support/published-arrangements';
import { readPublished } from '../../support/published-data';
import { type Check, type Row, single } from './check';
import type { SourceName } from './sources';
import { absolute } from './tolerance';

type Case = {
  id: string;
  title: string;
  source: string;
  effectiveness: number[][];
  approximation_error?: { largest_absolute: number; at_NTU: number; at_Cr: number };
  not_monotonic?: { at_Cr: number; largest_effectiveness: number; at_NTU: number };
};
type Inverse = { arrangement: string; Cr: number; effectiveness: number; NTU: number | null };
type Limit = { NTU?: number; Cr?: number; effectiveness?: number; limit?: number };

const reference = readPublished<{
  NTU: number[];
  Cr: number[];
  cases: Case[];
  inverse: Inverse[];
  limits: Limit[];
}>('exchanger-arrangements');

const WRITTEN = absolute(1e-8, 'the file, whose values have ten digits');

function sourceOf({ source }: Case): SourceName {
  if (source.startsWith('Kandlikar')) return 'Kandlikar & Shah 1989';
  if (source.startsWith('Shah')) return 'Shah & Sekulic';
  return source.startsWith('Mason') ? 'Mason 1955, Triboix 2009' : 'Incropera';
}

function gridRows(found: Case, formula: (ntu: number, ratio: number) => number, words = ''): Row[] {
  return found.effectiveness.flatMap((row, i) =>
    row.map((theirs, j) => {
      const [ntu, ratio] = [reference.NTU[i]!, reference.Cr[j]!];
      return { at: `NTU ${ntu}, Cr ${ratio}${words}`, theirs, ours: formula(ntu, ratio) };
    }),
  );
}

/** Plate 2-2 with co-current passes is no arrangement of the program; it is made of pure co- and counter-current flow. */
const COMPOSED: Record<string, (ntu: number, ratio: number) => number> = {
  'plate-2-2-overall-counter-passes-parallel': (ntu, ratio) => {
    const pass = coCurrentEffectiveness(ntu / 2, ratio);
    return counterCurrentEffectiveness(2 * counterCurrentTransferUnits(pass, ratio), ratio);
  },
  'plate-2-2-overall-parallel-passes-parallel': coCurrentEffectiveness,
};

function grids(): Check[] {
  return reference.cases.flatMap((found) => {
    const arrangement = CASES[found.id];
    const composed = COMPOSED[found.id];
    const rows = arrangement
      ? [
          ...gridRows(found, (n, r) => effectiveness(arrangement, n, r, 'hot')),
          ...gridRows(
            found,
            (n, r) => effectiveness(mirrored(arrangement), n, r, 'cold'),
            ', sides exchanged',
          ),
        ]
      : composed && gridRows(found, composed);
    if (!rows) return [];
    return [
      {
        id: `effectiveness ${found.id}`,
        quantity: `effectiveness: ${found.title}${composed ? ', composed of pure flows' : ', hot or cold the smaller'}`,
        unit: '–',
        source: sourceOf(found),
        origin: 'computed' as const,
        tolerance: WRITTEN,
        rows,
      },
    ];
  });
}

/** How far the usual closed form of cross-flow, neither fluid mixed, is from the exact series that is used here. */
function approximation(): Check {
  const found = reference.cases.find((each) => each.id === 'crossflow-neither-mixed-approximate')!;
  const { largest_absolute, at_NTU, at_Cr } = found.approximation_error!;
  const rows = gridRows(found, (n, r) => effectiveness(crossflow('none'), n, r, 'hot'));
  return single({
    id: 'effectiveness crossflow-neither-mixed-approximate',
    quantity: 'largest distance of the usual closed form from the exact series, over 98 values',
    unit: '–',
    source: sourceOf(found),
    origin: 'computed',
    tolerance: absolute(5e-6, 'five decimals given'),
    at: `NTU ${at_NTU}, Cr ${at_Cr}`,
    theirs: largest_absolute,
    ours: Math.max(...rows.map(({ theirs, ours }) => Math.abs(ours! - theirs!))),
  });
}

function inverses(): Check[] {
  const ids = [...new Set(reference.inverse.map((row) => row.arrangement))];
  return ids.map((id) => {
    const found = reference.cases.find((each) => each.id === id)!;
    const arrangement = CASES[id]!;
    return {
      id: `transfer units ${id}`,
      quantity: `NTU from effectiveness: ${found.title}; none above the limit`,
      unit: '–',
      source: sourceOf(found),
      origin: 'computed',
      tolerance: WRITTEN,
      rows: reference.inverse
        .filter((row) => row.arrangement === id)
        .flatMap((row) => {
          const at = `effectiveness ${row.effectiveness}, Cr ${row.Cr}`;
          const ours = (each: Arrangement, side: 'hot' | 'cold') =>
            numberOfTransferUnits(each, row.effectiveness, row.Cr, side);
          return [
            { at, theirs: row.NTU, ours: ours(arrangement, 'hot') },
            { at: `${at}, sides exchanged`, theirs: row.NTU, ours: ours(mirrored(arrangement), 'cold') },
          ];
        }),
    };
  });
}

type Asked = { what: string; id: string; ratio: number; ntu?: number; source: SourceName };

/** The limits of the file, in its order: what each asks of which arrangement. */
const LIMITS: Asked[] = [
  { what: 'Cr = 0, NTU 1', id: 'shell-1-2', ratio: 0, ntu: 1, source: 'Incropera' },
  { what: 'Cr = 0, NTU 3', id: 'crossflow-both-mixed', ratio: 0, ntu: 3, source: 'Incropera' },
  { what: 'counter-current, Cr = 1, NTU 9', id: 'counter-current', ratio: 1, ntu: 9, source: 'Incropera' },
  {
    what: 'counter-current, Cr within 1e-9 of 1, NTU 3',
    id: 'counter-current',
    ratio: 0.999999999,
    ntu: 3,
    source: 'Incropera',
  },
  {
    what: 'counter-current, Cr within 1e-12 of 1, NTU 3',
    id: 'counter-current',
    ratio: 0.999999999999,
    ntu: 3,
    source: 'Incropera',
  },
  { what: 'co-current, Cr = 1, greatest', id: 'co-current', ratio: 1, source: 'Incropera' },
  { what: '1 shell of 2 tube passes, Cr = 1, greatest', id: 'shell-1-2', ratio: 1, source: 'Incropera' },
  { what: '2 shells, Cr = 1, greatest', id: 'shell-2-4', ratio: 1, source: 'Incropera' },
  {
    what: 'cross-flow, smaller mixed, Cr = 0.7, greatest',
    id: 'crossflow-cmin-mixed',
    ratio: 0.7,
    source: 'Incropera',
  },
  {
    what: 'cross-flow, larger mixed, Cr = 0.7, greatest',
    id: 'crossflow-cmax-mixed',
    ratio: 0.7,
    source: 'Incropera',
  },
  { what: 'co-current, Cr = 0.6, greatest', id: 'co-current', ratio: 0.6, source: 'Incropera' },
  {
    what: 'plate 2-1, Cr = 1, greatest',
    id: 'plate-2-1-cmin-on-1-pass-side',
    ratio: 1,
    source: 'Kandlikar & Shah 1989',
  },
];

function limits(): Check[] {
  return LIMITS.map(({ what, id, ratio, ntu, source }, i) => {
    const arrangement = CASES[id]!;
    return single({
      id: `limit, ${what}`,
      quantity: 'effectiveness',
      unit: '–',
      source,
      origin: 'computed',
      tolerance: absolute(6e-13, 'twelve decimals given'),
      at: what,
      theirs: reference.limits[i]!.effectiveness ?? reference.limits[i]!.limit!,
      ours:
        ntu === undefined
          ? maximumEffectiveness(arrangement, ratio, 'hot')
          : effectiveness(arrangement, ntu, ratio, 'hot'),
    });
  });
}

/** Peaks of the arrangements that are not monotonic: the greatest effectiveness and the NTU at which it is reached. */
function peaks(): Check[] {
  return reference.cases.flatMap((found) => {
    const arrangement = CASES[found.id];
    if (!found.not_monotonic || !arrangement) return [];
    const { at_Cr, largest_effectiveness, at_NTU } = found.not_monotonic;
    const maximum = maximumEffectiveness(arrangement, at_Cr, 'hot');
    const decimals = String(largest_effectiveness).length - 2;
    const common = { source: sourceOf(found), origin: 'computed', unit: '–', at: `Cr ${at_Cr}` } as const;
    return [
      single({
        ...common,
        id: `peak ${found.id}: effectiveness`,
        quantity: 'greatest effectiveness of an arrangement that is not monotonic',
        tolerance: absolute(Number((0.5 * 10 ** -decimals).toPrecision(1)), 'the decimals given'),
        theirs: largest_effectiveness,
        ours: maximum,
      }),
      single({
        ...common,
        id: `peak ${found.id}: NTU`,
        quantity: 'NTU of the greatest effectiveness',
        tolerance: absolute(1e-4, 'flat at the peak: good to half the digits'),
        theirs: at_NTU,
        ours: numberOfTransferUnits(arrangement, maximum, at_Cr, 'hot'),
      }),
    ];
  });
}

export function arrangementChecks(): Check[] {
  return [...grids(), approximation(), ...inverses(), ...limits(), ...peaks()];
}

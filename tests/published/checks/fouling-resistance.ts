import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import {
  cleanlinessOf,
  foulingAtCleanliness,
  foulingResistance,
} from '@/lib/core/fouling/conductance-figures';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeReadingColumns } from '@/lib/core/series/reading-columns';
import { constantFluid, waterUnit } from '../../support/forward-readings';
import { readPublished } from '../../support/published-data';
import { type Check, type Row, single } from './check';
import { absolute, relative } from './tolerance';

type Relation = { rows: { values: [number, number, number][] } };
const [cleanliness, uncertainty] = readPublished<{ cases: { relations: [Relation, Relation] } }>(
  'fouling-models',
).cases.relations;

/** Rf in units of 1/Uc, so that one tolerance suits every Uc. */
const IN_CLEAN_RESISTANCES = {
  unit: '1/Uc',
  tolerance: absolute(1e-9, 'ten decimals of the factor'),
} as const;

function cleanlinessRows(ours: (cleanU: number, fouling: number, factor: number) => [number, number]): Row[] {
  return cleanliness.rows.values.map(([cleanU, fouling, factor]) => {
    const [theirs, own] = ours(cleanU, fouling, factor);
    return { at: `Uc ${cleanU}, Rf ${fouling}`, theirs, ours: own };
  });
}

function cleanlinessChecks(): Check[] {
  const common = { source: 'HEI', origin: 'computed' } as const;
  return [
    {
      ...common,
      id: 'cleanliness factor',
      quantity: 'cleanliness from fouling resistance',
      unit: '–',
      tolerance: absolute(5.1e-11, 'ten decimals given'),
      rows: cleanlinessRows((cleanU, fouling, factor) => [factor, cleanlinessOf(fouling, cleanU)]),
    },
    {
      ...common,
      id: 'fouling resistance',
      ...IN_CLEAN_RESISTANCES,
      quantity: 'fouling resistance from the two conductances',
      rows: cleanlinessRows((cleanU, fouling, factor) => [
        fouling * cleanU,
        foulingResistance(factor * cleanU, cleanU) * cleanU,
      ]),
    },
    {
      ...common,
      id: 'fouling resistance at a cleanliness',
      ...IN_CLEAN_RESISTANCES,
      quantity: 'fouling resistance at which a limit of cleanliness is reached',
      rows: cleanlinessRows((cleanU, fouling, factor) => [
        fouling * cleanU,
        foulingAtCleanliness(factor, cleanU) * cleanU,
      ]),
    },
  ];
}

/** A reading of a unit whose flows alone are uncertain and whose films do not move: Rf then moves with U alone. */
function uncertainReading(overallU: number, share: number) {
  const exact = { absolute: 0, relative: 0, systematicShare: 0 };
  const base = waterUnit();
  const [hotRate, rise] = [100_000, 20];
  const exchanger = waterUnit({
    hot: constantFluid(4000),
    cold: constantFluid(4000),
    area: (hotRate * rise) / 10 / overallU,
    design: { hotIn: 60, hotOut: 40, coldIn: 30, coldOut: 50, hotFlow: 25, coldFlow: 25, cleanU: overallU },
    films: { ...base.films, hotExponent: 0, coldExponent: 0 },
    sensors: {
      ...base.sensors,
      hotIn: exact,
      hotOut: exact,
      coldIn: exact,
      coldOut: exact,
      coldFlow: { ...exact, relative: share },
      hotFlow: { ...exact, relative: share },
    },
  });
  const readings = makeReadingColumns(1);
  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'coldFlow'] as const) {
    readings[sensor][0] = exchanger.design[sensor];
  }
  return evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
}

function uncertaintyChecks(): Check[] {
  const found = uncertainty.rows.values.map(([overallU, share, expected]) => ({
    at: `U ${overallU}, ${100 * share} %`,
    overallU,
    share,
    expected,
    result: uncertainReading(overallU, share),
  }));
  const common = { source: 'JCGM 100', origin: 'computed' } as const;
  return [
    {
      ...common,
      id: 'u(U)/U',
      quantity: 'relative uncertainty of U of a reading whose flows alone are uncertain',
      unit: '–',
      tolerance: relative(1e-6, 'first order'),
      rows: found.map(({ at, overallU, share, result }) => ({
        at,
        theirs: share,
        ours: result.overallUUncertainty[0]! / overallU,
      })),
    },
    {
      ...common,
      id: 'u(Rf)',
      quantity: 'uncertainty of the fouling resistance for a fixed clean reference',
      unit: 'm²·K/W',
      tolerance: relative(1e-6, 'eight digits given, first order'),
      rows: found.map(({ at, expected, result }) => ({
        at,
        theirs: expected,
        ours: result.foulingResistanceUncertainty[0]!,
      })),
    },
  ];
}

/** The engine-oil cooler of problem 11.24 as a reading, through the whole evaluation. */
function oilCoolerChecks(): Check[] {
  const exchanger = waterUnit({
    hot: constantFluid(2166),
    cold: constantFluid(4178),
    area: 5,
    design: { hotIn: 110, hotOut: 66, coldIn: 25, coldOut: 36.4, hotFlow: 0.1, coldFlow: 0.2, cleanU: 38 },
    films: { hotShare: 0.9, wallShare: 0.05, hotExponent: 0, coldExponent: 0 },
  });
  const readings = makeReadingColumns(1);
  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'hotFlow', 'coldFlow'] as const) {
    readings[sensor][0] = exchanger.design[sensor];
  }
  const result = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
  const figures = [
    {
      quantity: 'duty',
      unit: 'W',
      theirs: 9530.4,
      ours: result.duty[0]!,
      tolerance: absolute(0.05, 'the product of its inputs, which the book rounds to 9530'),
    },
    {
      quantity: 'LMTD',
      unit: 'K',
      theirs: 55.7,
      ours: result.lmtd[0]!,
      tolerance: absolute(0.05, 'rounding in the book'),
    },
    {
      quantity: 'U',
      unit: 'W/(m²·K)',
      theirs: 34.2,
      ours: result.overallU[0]!,
      tolerance: absolute(0.05, 'rounding in the book'),
    },
    {
      quantity: 'fouling resistance',
      unit: 'm²·K/W',
      theirs: 0.00292,
      ours: result.foulingResistance[0]!,
      tolerance: absolute(5e-6, 'the book subtracts rounded figures'),
    },
  ];
  return figures.map((figure) =>
    single({
      ...figure,
      id: `Incropera problem 11.24 as a reading: ${figure.quantity}`,
      source: 'Incropera',
      origin: 'recalled',
    }),
  );
}

export function foulingResistanceChecks(): Check[] {
  return [...cleanlinessChecks(), ...uncertaintyChecks(), ...oilCoolerChecks()];
}

import fc from 'fast-check';
import { plainUnit } from './units';

// Units whose datasheet passes the physics (temperatures of the plain unit) and states any of everything else.

const figure = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
const share = fc.double({ min: 0, max: 0.5, noNaN: true });
const measured = (...units: string[]) => fc.record({ value: figure, unit: fc.constantFrom(...units) });
const pressure = measured('kPa', 'bar', '[psi]', 'MPa', 'mbar', "[in_i'H2O]");
const flow = measured('kg/s', 't/h', '[lb_av]/h', 'kg/min');
const temperature = (celsius: number) =>
  fc.constantFrom(
    { value: celsius, unit: 'Cel' },
    { value: celsius * 1.8 + 32, unit: '[degF]' },
    { value: celsius + 273.15, unit: 'K' },
  );
/** Texts as people write them, and worse: what a spreadsheet would take for a formula, a number, a date. */
const text = fc.oneof(
  fc.constantFrom(
    '=1+1',
    '+SUM(A1)',
    '-5',
    '@x',
    '007',
    '1-2',
    '2026-01-01',
    'TRUE',
    '<b>&amp;"',
    "it's; ok",
    'Öl, heiß',
  ),
  fc
    .string({ minLength: 1, maxLength: 40 })
    .map((written) => `x${written.replace(/\P{L}/gu, ' ').replace(/\s+/g, ' ')}x`),
);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 2 });

const energyPrice = {
  price: maybe(
    fc.record({ amount: figure, per: fc.constantFrom('kW.h', 'GJ', '10*6.[Btu_IT]', '[Btu_IT]') }),
  ),
  carbon: maybe(fc.record({ kg: share, per: fc.constantFrom('kW.h', 'MJ') })),
};

const table = fc.record({
  table: fc.constantFrom(2, 5).chain((rows) =>
    fc.tuple(figure, maybe(figure)).map(([heat, density]) =>
      Array.from({ length: rows }, (_, i) => ({
        temperature: { value: 5 + i * 60, unit: 'Cel' },
        specificHeat: { value: 3000 + (heat % 100) + i, unit: 'J/(kg.K)' },
        ...(density === undefined ? {} : { density: { value: 900 + (density % 50) - i, unit: 'kg/m3' } }),
      })),
    ),
  ),
});
const constants = fc.record({
  specificHeat: fc.double({ min: 2, max: 4, noNaN: true }).map((value) => ({ value, unit: 'kJ/(kg.K)' })),
});
const polynomial = fc.double({ min: 0, max: 2, noNaN: true }).map((slope) => ({
  polynomial: {
    from: { value: 0, unit: 'Cel' },
    to: { value: 200, unit: '[degF]' },
    specificHeat: { coefficients: [3800, 0, slope], unit: 'J/(kg.K)' },
    density: { coefficients: [1000], unit: 'kg/m3' },
  },
}));
const stream = fc.oneof(
  fc.record({
    fluid: fc.constant('water' as const),
    pressure: fc.constantFrom({ value: 5, unit: 'bar' }, { value: 500, unit: 'kPa' }),
  }),
  fc.record({
    fluid: fc.constant('custom' as const),
    name: fc.constantFrom('milk', 'Milk', 'whey', '=oil'),
    properties: fc.oneof(table, constants, polynomial),
  }),
);

const limit = fc.oneof(
  fc.record({
    kind: fc.constant('fouling-resistance' as const),
    value: measured('m2.K/W', 'h.[ft_i]2.[degF]/[Btu_IT]'),
  }),
  fc.record({
    kind: fc.constant('cleanliness' as const),
    below: fc.double({ min: 0.1, max: 0.9, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('outlet-temperature' as const),
    stream: fc.constantFrom('hot' as const, 'cold' as const),
    above: measured('Cel', '[degF]'),
  }),
  fc.record({
    kind: fc.constant('pressure-drop' as const),
    stream: fc.constantFrom('hot' as const, 'cold' as const),
    above: pressure,
  }),
);

const sensor = (uncertainty: fc.Arbitrary<unknown>) =>
  fc.record({ uncertainty, systematicShare: share }, { requiredKeys: ['uncertainty'] });
const sensors = fc.record(
  {
    hotIn: sensor(fc.oneof(share, measured('K', '[degF]'))),
    coldFlow: fc.record({ uncertainty: fc.oneof(share, flow), at: fc.constant('outlet'), nominal: flow }),
    hotPressureDrop: sensor(fc.oneof(share, pressure)),
  },
  { requiredKeys: ['hotIn'] },
);

export const anyUnit = fc
  .record({
    service: maybe(text),
    construction: maybe(fc.constantFrom('plate', 'other')),
    area: measured('m2', '[ft_i]2'),
    hot: stream,
    cold: stream,
    temperatures: fc.tuple(temperature(50), temperature(40), temperature(30), temperature(40)),
    flows: fc.tuple(flow, flow),
    limits: fc.array(limit, { minLength: 1, maxLength: 5 }),
    sensors: maybe(sensors),
    films: maybe(fc.record({ hotShare: share, wallShare: share })),
    validFrom: maybe(fc.constantFrom('2026-05-04T08:00:00+01:00', '2025-12-31T23:59:59.5Z')),
    energy: maybe(fc.record({ effect: fc.constantFrom('heating', 'cooling'), supply: text, ...energyPrice })),
    pumping: maybe(fc.record({ hotClean: pressure, coldMaximumFlow: flow, ...energyPrice })),
    cleaning: maybe(
      fc.record({ cost: figure, duration: measured('h', 'd'), inOutageOnly: fc.boolean(), isolation: text }),
    ),
    checks: maybe(
      fc.record({
        frozenHours: fc.double({ min: 1, max: 48, noNaN: true }),
        spikeHalfWindow: fc.integer({ min: 2, max: 24 }),
      }),
    ),
  })
  .map(({ temperatures: [hotIn, hotOut, coldIn, coldOut], flows: [hotFlow, coldFlow], ...unit }) => ({
    ...plainUnit('any'),
    ...unit,
    design: { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow, cleanU: { value: 900, unit: 'W/(m2.K)' } },
  }));

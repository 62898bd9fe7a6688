import { describe, expect, it } from 'vitest';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { DISPLAY_KINDS, displayUnit, fromDisplay } from '@/lib/report/format/display-unit';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';
import { readCostAddress } from '@/lib/report/unit-cost/cost-address';
import { costView } from '@/lib/report/unit-cost/cost-view';
import type { WorkedLine, WorkedStep } from '@/lib/report/worked/worked-step';
import { PLATE_UNIT, unitRecords } from '../support/unit-records';

const ENERGY: Unit['energy'] = {
  effect: 'heating',
  price: { amount: 0.04, per: 'kW.h' },
  carbon: { kg: 0.2, per: 'kW.h' },
  efficiency: 0.85,
};
const PUMPING = {
  price: { amount: 0.12, per: 'kW.h' },
  hotClean: { value: 30.123, unit: 'kPa' },
  coldClean: { value: 24.987, unit: 'kPa' },
  hotMaximumFlow: { value: 40, unit: 'kg/s' },
};

/** Records whose day's figures, like those of real days, are each their own median and fit one another only roughly. */
function recordsOf(changes: object): UnitRecords {
  const records = unitRecords(
    () => {},
    unitSchema.parse({ ...PLATE_UNIT, energy: ENERGY, pumping: PUMPING, ...changes }),
  );
  const { daily } = records;
  const scaled = (column: Float64Array, factor: number) => column.map((value) => value * factor);
  return {
    ...records,
    daily: {
      ...daily,
      duty: scaled(daily.duty, 0.9871),
      lostDuty: scaled(daily.lostDuty, 1.137),
      hotPressureDrop: daily.duty.map(() => 30_313.7),
      coldPressureDrop: daily.duty.map(() => 26_543.2),
    },
  };
}

const stepsOf = (changes: object = {}, system: UnitSystem = 'si'): WorkedStep[] =>
  costView(recordsOf(changes), readCostAddress('HX-1', {}), system).known!.chain!.steps;

/** The number and unit of a figure as printed, in SI, and how far half its last printed digit reaches. */
function read(text: string, system: UnitSystem): { value: number; half: number } {
  const [, sign, digits, spread, label] =
    /^(−?)([\d,]+(?:\.\d+)?)(?: ± ([\d,.]+))?[\s\u2009\u202f]*(.*)$/.exec(text)!;
  const number = Number(`${sign === '' ? '' : '-'}${digits!.replaceAll(',', '')}`);
  const decimals = digits!.split('.')[1]?.length ?? 0;
  // A spread of 50 says that the tens are the last digits meant.
  const zeros = decimals > 0 ? 0 : /0*$/.exec(spread ?? '')![0].length;
  const step = 10 ** (zeros - decimals);
  const unit = DISPLAY_KINDS.flatMap((kind) => [
    displayUnit(kind, system, 0),
    displayUnit(kind, system, 1e30),
  ]).find((each) => each.label === label);
  if (unit === undefined) throw new Error(`no unit "${label}" in "${text}"`);
  return { value: fromDisplay(number, unit), half: (step / 2) * unit.factor };
}

/** What a line of figures gives, worked out by JavaScript's own arithmetic from the text alone. */
function evaluated(figures: string, system: UnitSystem): number {
  const flat = figures.replaceAll(/frac\{([^{}]*)\}\{([^{}]*)\}/g, '(($1)/($2))').replaceAll(' · ', '*');
  const quantity =
    /(?<![\w.])−?\d[\d,]*(?:\.\d+)?(?:[\s\u2009\u202f](?:W\/\(m²·K\)|Btu\/\(h·ft²·°F\)|kBtu\/\(h·°F\)|[^\s()*+−/]+(?:\/[^\s()*+−/]+)?))?/g;
  const arithmetic = flat
    .replaceAll(quantity, (text) => `(${read(text, system).value})`)
    .replaceAll('−', '-');
  expect(arithmetic).toMatch(/^[-+*/().\de\s]+$/);
  return Number(new Function(`return ${arithmetic}`)());
}

function expectTrue({ symbols, figures, result }: WorkedLine, system: UnitSystem): void {
  const { value, half } = read(result, system);
  expect(
    Math.abs(evaluated(figures, system) - value),
    `${symbols}: ${figures} = ${result}`,
  ).toBeLessThanOrEqual(half * (1 + 1e-6));
}

/** Lines that are products, quotients, sums and differences of what is printed. */
const isArithmetic = ({ figures }: WorkedLine) => !/ε\(|median|24 h/.test(figures);

describe('every line of a day’s cost', () => {
  const held = { energy: { ...ENERGY, heldOutlet: 'cold' } };

  it.each([
    ['lost duty', {}, 'si', 6],
    ['lost duty in US units', {}, 'us', 6],
    ['a held outlet', held, 'si', 5],
  ] as const)('gives what it says, to the last digit printed: %s', (_, changes, system, least) => {
    const lines = stepsOf(changes, system)
      .flatMap((step) => step.lines)
      .filter(isArithmetic);
    expect(lines.length).toBeGreaterThanOrEqual(least);
    for (const line of lines) expectTrue(line, system);
  });

  it('then says what counts: the median over the readings of the day, from which energy and money go on', () => {
    const [lost, bought] = stepsOf();
    const { daily } = recordsOf({});
    const row = daily.lostDuty.findLastIndex((value) => !Number.isNaN(value));
    const [once, counted] = lost!.lines.slice(-2);
    expect(counted!.figures).toBe(`median of the same over the day’s ${daily.accepted[row]} readings`);
    expect(counted!.result).toContain('±');
    expect(lost!.notes[0]).toContain(`The lines down to ${once!.result} are one evaluation`);
    // The two differ here by more than the digits printed, and the second is the one that goes on.
    expect(Math.abs(read(once!.result, 'si').value / daily.lostDuty[row]! - 1)).toBeGreaterThan(0.05);
    expect(read(/frac\{(.*?)\}/.exec(bought!.lines[0]!.figures)![1]!, 'si').value).toBeCloseTo(
      daily.lostDuty[row]!,
      -1,
    );
  });

  it('shows the pumping of a held outlet at both flows, of which the difference is what the losses count', () => {
    const { lines } = stepsOf(held).find(({ id }) => id === 'pumping')!;
    expect(lines[0]!.symbols).toContain('Δp_{h} · ṁ_{h} − Δp_{h,clean} · ṁ_{clean}');
    expect(lines.map(({ symbols }) => symbols.split(' ')[0])).toEqual([
      'P_{pump,h}',
      'P_{pump,c}',
      'P_{pump}',
      'money',
    ]);
    // By hand: 0.12 € per kWh for 24 h.
    const power = read(lines[2]!.result, 'si').value;
    const money = Number(lines[3]!.result.match(/[\d.]+/)![0]);
    expect(Math.abs(money - (power / 1000) * 24 * 0.12)).toBeLessThanOrEqual(0.5);
  });
});

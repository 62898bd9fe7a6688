import { inSi } from '@/lib/contract/in-si';
import { capacityRate } from '@/lib/core/exchange/duty';
import type { Side } from '@/lib/core/exchange/exchanger';
import {
  conductanceFromMeanDifference,
  capacityRatio as ratioOf,
  smallerSide as smallerOf,
} from '@/lib/core/exchange/rating';
import type { UnitRecord } from '@/lib/report/records';
import { arrangementInWords } from '@/lib/report/unit/arrangement-words';
import { PLACE, type WorkedState } from './worked-state';
import type { WorkedLine, WorkedStep, Writer } from './worked-step';

/** Capacity rates of a rated state; null on a side that changes phase, where the rate has no end. */
export type Rates = {
  hot: number | null;
  cold: number | null;
  smallest: number;
  ratio: number;
  smaller: 'hot' | 'cold';
};

export function ratesOf({ model, reconciled, figure }: WorkedState): Rates {
  const { hotIn, hotOut, coldIn, coldOut } = PLACE;
  const rate = (side: Side, warmer: number, colder: number) =>
    model.phaseChange === side
      ? null
      : capacityRate(figure('duty'), reconciled[warmer]! - reconciled[colder]!);
  const hot = rate('hot', hotIn, hotOut);
  const cold = rate('cold', coldOut, coldIn);
  const [hotRate, coldRate] = [hot ?? Number.POSITIVE_INFINITY, cold ?? Number.POSITIVE_INFINITY];
  return {
    hot,
    cold,
    smallest: Math.min(hotRate, coldRate),
    ratio: ratioOf(hotRate, coldRate),
    smaller: smallerOf(hotRate, coldRate),
  };
}

/** From the duty to U: mean temperature difference, capacity rates, effectiveness, transfer units, area. */
export function conductanceSteps(state: WorkedState, record: UnitRecord, write: Writer): WorkedStep[] {
  const rates = ratesOf(state);
  return [
    lmtdStep(state, write),
    ratesStep(state, rates, write),
    unitsStep(state, rates, write),
    uStep(state, record, write),
  ];
}

function temperatures({ model, reconciled }: WorkedState) {
  const { hotIn, coldOut } = PLACE;
  // A side that changes phase is at saturation from end to end.
  return {
    hotIn: reconciled[hotIn]!,
    hotOut: reconciled[model.hotEnd]!,
    coldIn: reconciled[model.coldStart]!,
    coldOut: reconciled[coldOut]!,
  };
}

const SATURATION = 'T_{sat}';

/** Symbols of the four temperatures that drive the transfer. */
export function endSymbols(phaseChange: Side | null) {
  const isHot = phaseChange === 'hot';
  const isCold = phaseChange === 'cold';
  return {
    hotIn: isHot ? SATURATION : 'T_{h,i}',
    hotOut: isHot ? SATURATION : 'T_{h,o}',
    coldIn: isCold ? SATURATION : 'T_{c,i}',
    coldOut: isCold ? SATURATION : 'T_{c,o}',
  };
}

function lmtdStep(state: WorkedState, write: Writer): WorkedStep {
  const t = temperatures(state);
  const temperature = (value: number) => write.text(value, 'temperature');
  const difference = (value: number) => write.text(value, 'temperatureDifference');
  const [first, second] = [t.hotIn - t.coldOut, t.hotOut - t.coldIn];
  const symbols = endSymbols(state.model.phaseChange);
  const lines: WorkedLine[] = [
    {
      symbols: `ΔT_{1} = ${symbols.hotIn} − ${symbols.coldOut}`,
      figures: `${temperature(t.hotIn)} − ${temperature(t.coldOut)}`,
      result: difference(first),
    },
    {
      symbols: `ΔT_{2} = ${symbols.hotOut} − ${symbols.coldIn}`,
      figures: `${temperature(t.hotOut)} − ${temperature(t.coldIn)}`,
      result: difference(second),
    },
    {
      symbols: 'LMTD = frac{ΔT_{1} − ΔT_{2}}{ln(ΔT_{1} / ΔT_{2})}',
      figures: `frac{${difference(first)} − ${difference(second)}}{ln(${difference(first)} / ${difference(second)})}`,
      result: difference(state.figure('lmtd')),
    },
  ];
  return {
    id: 'lmtd',
    title: 'Mean temperature difference',
    lines,
    notes: ['Where both terminal differences are equal, the mean is that difference.'],
  };
}

const WITHOUT_END = 'without end, C_{r} = 0';

function ratesStep(state: WorkedState, rates: Rates, write: Writer): WorkedStep {
  const t = temperatures(state);
  const duty = write.text(state.figure('duty'), 'power');
  const rate = (value: number) => write.text(value, 'totalConductance');
  const change = (value: number) => write.text(value, 'temperatureDifference');
  const { phaseChange } = state.model;
  const symbols = endSymbols(phaseChange);
  return {
    id: 'capacity-rates',
    title: 'Capacity rates and effectiveness',
    lines: [
      rates.hot === null
        ? { symbols: 'C_{h}', figures: 'condenses at one temperature', result: WITHOUT_END }
        : {
            symbols: 'C_{h} = frac{Q}{T_{h,i} − T_{h,o}}',
            figures: `frac{${duty}}{${change(t.hotIn - t.hotOut)}}`,
            result: rate(rates.hot),
          },
      rates.cold === null
        ? { symbols: 'C_{c}', figures: 'evaporates at one temperature', result: WITHOUT_END }
        : {
            symbols: 'C_{c} = frac{Q}{T_{c,o} − T_{c,i}}',
            figures: `frac{${duty}}{${change(t.coldOut - t.coldIn)}}`,
            result: rate(rates.cold),
          },
      {
        symbols: 'C_{r} = frac{C_{min}}{C_{max}}',
        figures:
          rates.hot === null || rates.cold === null
            ? `${phaseChange} side without end`
            : `frac{${rate(rates.smallest)}}{${rate(Math.max(rates.hot, rates.cold))}}`,
        result: write.plain(rates.ratio),
      },
      {
        symbols: `ε = frac{Q}{C_{min} · (${symbols.hotIn} − ${symbols.coldIn})}`,
        figures: `frac{${duty}}{${rate(rates.smallest)} · ${change(t.hotIn - t.coldIn)}}`,
        result: write.plain(state.figure('effectiveness')),
      },
    ],
    notes: [`The ${rates.smaller} stream has the smaller capacity rate.`],
  };
}

function unitsStep(state: WorkedState, rates: Rates, write: Writer): WorkedStep {
  const { figure, model } = state;
  const viaLmtd = conductanceFromMeanDifference(figure('duty'), figure('lmtd'), figure('correction'));
  const conductance = (value: number) => write.text(value, 'totalConductance');
  return {
    id: 'ntu',
    title: 'Transfer units and conductance',
    lines: [
      {
        symbols: 'NTU = NTU(ε, C_{r})',
        figures: `${arrangementInWords(model.exchanger.arrangement)}, ε = ${write.plain(figure('effectiveness'))}, C_{r} = ${write.plain(rates.ratio)}`,
        result: write.plain(figure('ntu')),
      },
      {
        symbols: 'UA = NTU · C_{min}',
        figures: `${write.plain(figure('ntu'))} · ${conductance(rates.smallest)}`,
        result: conductance(figure('conductance')),
      },
      {
        symbols: 'F = frac{Q}{UA · LMTD}',
        figures: `frac{${write.text(figure('duty'), 'power')}}{${conductance(figure('conductance'))} · ${write.text(figure('lmtd'), 'temperatureDifference')}}`,
        result: write.plain(figure('correction')),
      },
      {
        symbols: 'UA = frac{Q}{F · LMTD}',
        figures: 'the same by the other route',
        result: conductance(viaLmtd),
      },
    ],
    notes: ['F is what this arrangement reaches of the mean difference of pure counter-current flow.'],
  };
}

function uStep({ figure, model }: WorkedState, { unit }: UnitRecord, write: Writer): WorkedStep {
  const area = write.text(model.exchanger.area, 'area');
  const plates = unit.plates;
  const areaLine: WorkedLine[] =
    plates === undefined
      ? []
      : [
          {
            symbols: 'A = (N − 2) · a',
            figures: `(${plates.count} − 2) · ${write.text(inSi(plates.areaEach, 'area'), 'area')}`,
            result: area,
          },
        ];
  return {
    id: 'u',
    title: 'Overall conductance U',
    lines: [
      ...areaLine,
      {
        symbols: 'U = frac{UA}{A}',
        figures: `frac{${write.text(figure('conductance'), 'totalConductance')}}{${area}}`,
        result: write.text(figure('overallU'), 'conductance', figure('overallUUncertainty')),
      },
    ],
    notes:
      plates === undefined
        ? []
        : ['The first and the last plate are wetted on one side only and are not counted.'],
  };
}

import { weightedDuty } from '@/lib/core/exchange/duty';
import type { Side } from '@/lib/core/exchange/exchanger';
import { sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import { BALANCE_SENSORS, NONE_INFERRED, PLACE, type WorkedState } from './worked-state';
import type { WorkedLine, WorkedStep, Writer } from './worked-step';

/** From the readings to the duty: mass flows, duty of each side, balance, reconciled duty. */
export function streamSteps(state: WorkedState, write: Writer): WorkedStep[] {
  return [massFlowStep(state, write), dutyStep(state, write)].filter((step) => step.lines.length > 0);
}

const SIDES = [
  { side: 'hot', letter: 'h', basis: HOT_FLOW_IS_VOLUME },
  { side: 'cold', letter: 'c', basis: COLD_FLOW_IS_VOLUME },
] as const;

function massFlowStep(state: WorkedState, write: Writer): WorkedStep {
  const lines = SIDES.flatMap(({ side, letter, basis }): WorkedLine[] => {
    const isVolume = (state.reading.flowBasis[0]! & basis) !== 0;
    const place = PLACE[`${side}Flow`];
    if (!isVolume || state.inferred === place || (state.nominal & (1 << place)) !== 0) return [];
    const meter = meterTemperature(state, side);
    const density = state.model[side].density?.(meter) ?? Number.NaN;
    return [
      {
        symbols: `ṁ_{${letter}} = ρ_{${letter}}(T_{meter}) · V̇_{${letter}}`,
        figures: `${write.text(density, 'density')} · ${write.text(state.reading[`${side}Flow`][0]!, 'volumeFlow')}`,
        result: write.text(state.measured[place]!, 'massFlow'),
      },
    ];
  });
  const { hotMeterAt, coldMeterAt } = state.model.exchanger;
  return {
    id: 'mass-flow',
    title: 'Mass flow from volume flow',
    lines,
    notes: [
      `The density is that at the meter’s own temperature: hot meter at the ${hotMeterAt}, cold meter at the ${coldMeterAt}.`,
    ],
  };
}

function meterTemperature({ model, measured }: WorkedState, side: Side): number {
  const end = model.exchanger[`${side}MeterAt`] === 'inlet' ? 'In' : 'Out';
  return measured[PLACE[`${side}${end}`]]!;
}

function dutyStep(state: WorkedState, write: Writer): WorkedStep {
  const { measured, model } = state;
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const { streams } = model;
  const at = (curve: keyof typeof streams, place: number) => streams[curve].enthalpy(measured[place]!);
  const hotLine: WorkedLine = {
    symbols:
      model.phaseChange === 'hot'
        ? 'Q_{h} = ṁ_{h} · (h_{vapour} − h_{condensate})'
        : 'Q_{h} = ṁ_{h} · (h(T_{h,i}) − h(T_{h,o}))',
    figures: `${write.text(measured[hotFlow]!, 'massFlow')} · (${write.text(at('hotIn', hotIn), 'enthalpy')} − ${write.text(at('hotOut', hotOut), 'enthalpy')})`,
    result: write.text(dutyOf(state, 'hotDuty'), 'power'),
  };
  const coldLine: WorkedLine = {
    symbols:
      model.phaseChange === 'cold'
        ? 'Q_{c} = ṁ_{c} · (h_{vapour} − h_{feed})'
        : 'Q_{c} = ṁ_{c} · (h(T_{c,o}) − h(T_{c,i}))',
    figures: `${write.text(measured[coldFlow]!, 'massFlow')} · (${write.text(at('coldOut', coldOut), 'enthalpy')} − ${write.text(at('coldIn', coldIn), 'enthalpy')})`,
    result: write.text(dutyOf(state, 'coldDuty'), 'power'),
  };
  const balance = balanceLines(state, write);
  return {
    id: 'duty',
    title: 'Duty and heat balance',
    lines: [hotLine, coldLine, ...balance],
    notes: [...nominalNotes(state), closingNote(state)],
  };
}

function closingNote({ inferred }: WorkedState): string {
  if (inferred === NONE_INFERRED)
    return 'Reconciled: the least change of the six values, in units of each sensor’s uncertainty, that closes the balance.';
  return `The ${SENSOR_WORDS[BALANCE_SENSORS[inferred]!]} is not measured: it follows from the balance, which therefore cannot be checked.`;
}

function nominalNotes({ nominal }: WorkedState): string[] {
  return sensorsOf(nominal, BALANCE_SENSORS).map(
    (sensor) =>
      `The ${SENSOR_WORDS[sensor]} is not measured: the constant of the datasheet stands in, so that no balance is checked.`,
  );
}

/** The evaluation leaves the duty of a side without a flow meter open: it equals the other's. */
function dutyOf({ figure }: WorkedState, name: 'hotDuty' | 'coldDuty'): number {
  return Number.isFinite(figure(name)) ? figure(name) : figure('duty');
}

function balanceLines(state: WorkedState, write: Writer): WorkedLine[] {
  const { figure } = state;
  const duty = write.text(figure('duty'), 'power', figure('dutyUncertainty'));
  if (!Number.isFinite(figure('balance'))) return [{ symbols: 'Q', figures: originOf(state), result: duty }];
  const [hotDuty, coldDuty] = [figure('hotDuty'), figure('coldDuty')];
  const uncertainty = { hot: sideUncertainty(state, 'hot'), cold: sideUncertainty(state, 'cold') };
  const [hot, cold] = [write.text(hotDuty, 'power'), write.text(coldDuty, 'power')];
  return [
    {
      symbols: 'balance error = frac{Q_{h} − Q_{c}}{(Q_{h} + Q_{c}) / 2}',
      figures: `frac{${hot} − ${cold}}{(${hot} + ${cold}) / 2}`,
      result: write.percent(figure('balance')),
    },
    {
      symbols: 'Q_{weighted} = frac{Q_{h} / u_{h}^{2} + Q_{c} / u_{c}^{2}}{1 / u_{h}^{2} + 1 / u_{c}^{2}}',
      figures: `u_{h} = ${write.text(uncertainty.hot, 'power')}, u_{c} = ${write.text(uncertainty.cold, 'power')}`,
      result: write.text(weightedDuty(hotDuty, coldDuty, uncertainty), 'power'),
    },
    { symbols: 'Q = Q_{h} = Q_{c}', figures: 'from the reconciled values', result: duty },
  ];
}

function originOf({ inferred }: WorkedState): string {
  return inferred === NONE_INFERRED ? 'from the reconciled values' : 'the side without an inferred value';
}

/** Standard uncertainty of one side's duty from its three sensors, first order (JCGM 100, eq. 10). */
function sideUncertainty({ gradient, uncertainty }: WorkedState, side: Side): number {
  const places = [PLACE[`${side}In`], PLACE[`${side}Out`], PLACE[`${side}Flow`]];
  return Math.hypot(...places.map((place) => gradient[place]! * uncertainty[place]!));
}

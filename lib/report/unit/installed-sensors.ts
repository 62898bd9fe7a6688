import type { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import {
  type InstalledSensors,
  installedSensors as judgeInstalled,
  type UnmeasuredSensor,
} from '@/lib/core/fouling/installed-sensors';
import { standardUncertainty, unitModel } from '@/lib/core/fouling/unit-model';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import type { UnitRecord, UnitRecords } from '@/lib/report/records';

type BalanceSensor = (typeof BALANCE_SENSORS)[number];

/** What the unit page says of sensors that are not there: what stands in for each, and what one there would give. */
export type InstalledView = { title: string; lines: string[] };

/** Null where all six values are measured, and where the period holds no readings to judge by. */
export function installedView(
  { record, readings }: Pick<UnitRecords, 'record' | 'readings'>,
  system: UnitSystem,
): InstalledView | null {
  if (readings.time.length === 0) return null;
  const installed = judgeInstalled(unitModel(record.exchanger, record.settings), readings);
  if (installed.unmeasured.length === 0) return null;
  const known = installed.unmeasured.filter(({ standIn }) => standIn !== null);
  return {
    title: installed.isEvaluable ? 'What is not measured' : 'What is missing for an evaluation',
    lines: [
      ...(installed.isEvaluable ? [] : [missingLine(installed.missing)]),
      ...known.map((sensor) => unmeasuredLine(sensor, record, system)),
      ...(installed.isEvaluable ? [checkLine(installed)] : []),
    ].filter((line) => line !== ''),
  };
}

/** "No reading can be evaluated. One more value would do: hot flow or cold flow." */
function missingLine(ways: BalanceSensor[][]): string {
  const words = ways.map((way) => inWords(way, 'and'));
  const isOne = ways[0]!.length === 1;
  const lead = isOne ? 'One more sensor would do' : 'The fewest sensors that would do together';
  return `No reading of this period can be evaluated: too little is measured. ${lead}: ${listed(words, isOne ? 'or' : ', or')}.`;
}

function unmeasuredLine(unmeasured: UnmeasuredSensor, record: UnitRecord, system: UnitSystem): string {
  return `${standInText(unmeasured, record, system)}${gainText(unmeasured)}`;
}

function standInText({ sensor, standIn }: UnmeasuredSensor, record: UnitRecord, system: UnitSystem): string {
  const name = sentence(SENSOR_WORDS[sensor]);
  switch (standIn) {
    case 'balance':
      return `${name} is not measured: it is inferred from the heat balance, so there is no balance check and the uncertainty is wider.`;
    case 'nominal':
      return `${name} is a typed-in constant of ${nominalText(sensor, record, system)}: it does not show standstill or turndown, and a balance against it would check nothing.`;
    case 'saturated':
      return `${name} is not measured: ${sensor === 'hotOut' ? 'the condensate leaves' : 'the feed enters'} as saturated liquid by assumption.`;
    default:
      return `${name} is not measured: it is the saturation temperature at the pressure on the datasheet.`;
  }
}

function gainText({ sensor, gain }: UnmeasuredSensor): string {
  const device = sensor.endsWith('Flow') ? 'A flow meter' : 'A thermometer';
  switch (gain) {
    case 'balance-check':
      return ` ${device} there would give the check and narrow u(Rf).`;
    case 'measured-flow':
      return ` ${device} there would take the place of a typed-in constant and narrow u(Rf).`;
    case 'subcooling':
      return ` ${device} there would count its subcooling.`;
    default:
      return '';
  }
}

function nominalText(sensor: BalanceSensor, { exchanger }: UnitRecord, system: UnitSystem): string {
  const { hot, cold } = exchanger.nominalFlows;
  const flow = (sensor === 'hotFlow' ? hot : cold)!;
  const share = standardUncertainty(exchanger.sensors[sensor], flow) / flow;
  return `${formatFigureText(flow, 'massFlow', system, { digits: 4 })} ± ${formatNumber(share * 100, share < 0.01 ? 1 : 0)} %`;
}

/** Said once where two typed-in flows leave nothing inferred. */
function checkLine({ unmeasured }: InstalledSensors): string {
  const nominal = unmeasured.filter(({ standIn }) => standIn === 'nominal');
  return nominal.length < 2
    ? ''
    : 'Both flows are typed in: the balance between them is closed by adjustment and is not checked. Either flow meter lets the other flow be inferred instead.';
}

/** "hot flow", "hot flow and cold flow", "a, b and c". */
function inWords(sensors: BalanceSensor[], word: string): string {
  return listed(
    sensors.map((sensor) => SENSOR_WORDS[sensor]),
    word,
  );
}

function listed(words: string[], word: string): string {
  if (words.length < 2) return words.join('');
  const joint = word.startsWith(',') ? word : ` ${word}`;
  return `${words.slice(0, -1).join(', ')}${joint} ${words.at(-1)}`;
}

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

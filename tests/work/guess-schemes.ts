import type { Sensor } from '@/lib/core/exchange/exchanger';
import type { Scheme } from './guess-plants';

/** Parts of a sensor that names are put together from. */
type Parts = { kind: 'T' | 'F' | 'DP'; side: 'hot' | 'cold'; end: 'in' | 'out' | '' };

export function partsOf(sensor: Sensor): Parts {
  const side = sensor.startsWith('hot') ? 'hot' : 'cold';
  if (sensor.endsWith('Flow')) return { kind: 'F', side, end: '' };
  if (sensor.endsWith('Drop')) return { kind: 'DP', side, end: '' };
  return { kind: 'T', side, end: sensor.endsWith('In') ? 'in' : 'out' };
}

const PLAIN_UNITS: Record<string, string> = {
  Cel: 'degC',
  '[degF]': 'degF',
  '[gal_us]/min': 'gpm',
  '[lb_av]/h': 'lb/h',
  '[psi]': 'psi',
};
const plain = (unit: string) => PLAIN_UNITS[unit] ?? unit;
const up = (text: string) => text.toUpperCase();
const join = (separator: string, ...parts: string[]) => parts.filter((part) => part !== '').join(separator);
const KIND_WORDS = { T: 'temperature', F: 'flow', DP: 'pressure drop' } as const;
const NO_DECOYS = () => [];

/** Schemes that the guess was made with. */
export const KNOWN_SCHEMES: Scheme[] = [
  {
    name: 'U1_E101_TI_HOT_IN with a row of units',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: join(
          '_',
          'U1',
          `E${number}`,
          kind === 'T' ? 'TI' : kind === 'F' ? 'FI' : 'PDI',
          up(side),
          up(end),
        ),
        unit,
      };
    },
    decoys: ({ number }) => [
      { name: `U1_E${number}_PI_HOT_IN`, unit: 'bar', like: 4 },
      { name: `U1_E${number}_LI_SHELL`, unit: '%', like: 55 },
      { name: `U1_E${number}_TI_HOT_IN_SP`, unit: null, like: 'hotIn' },
    ],
  },
  {
    name: 'E-101.TI.HotIn in brackets',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const words = `${side === 'hot' ? 'Hot' : 'Cold'}${end === '' ? '' : end === 'in' ? 'In' : 'Out'}`;
      return { name: `E-${number}.${kind}.${words}`, unit: plain(unit) };
    },
    decoys: ({ number }) => [{ name: `E-${number}.Duty`, unit: 'kW', like: 900 }],
  },
  {
    name: 'E101_THI',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return { name: `E${number}_${kind}${up(side[0]!)}${up(end.slice(0, 1))}`, unit };
    },
    decoys: ({ number }) => [{ name: `E${number}_LMTD`, unit: 'K', like: 20 }],
  },
  {
    name: 'TI-1011.PV, described',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const loop = number * 10 + ['hotIn', 'hotOut', 'coldIn', 'coldOut'].indexOf(sensor) + 1;
      const letters = kind === 'T' ? 'TI' : kind === 'F' ? 'FI' : 'PDI';
      return {
        name: `${letters}-${loop}.PV`,
        description: join(' ', `E-${number}`, side, end === '' ? '' : `${end}let`, KIND_WORDS[kind]),
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [
      { name: `TIC-${number}9.OUT`, description: `E-${number} outlet controller`, unit: '%', like: 40 },
      { name: `LI-${number}7.PV`, description: `V-${number} level`, unit: '%', like: 60 },
    ],
  },
  {
    name: '101-E TI hot inlet',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: join(
          ' ',
          `${number}-E`,
          kind === 'T' ? 'TI' : kind === 'F' ? 'FT' : 'PDT',
          side,
          end === '' ? '' : `${end}let`,
        ),
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [{ name: `${number}-P amps`, unit: 'A', like: 12 }],
  },
  {
    name: 'E-101 Hot Inlet Temperature, no units of measure',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: join(
          ' ',
          `E-${number}`,
          up(side[0]!) + side.slice(1),
          end === 'in' ? 'Inlet' : end === 'out' ? 'Outlet' : '',
          KIND_WORDS[kind],
        ),
      };
    },
    decoys: ({ number }) => [{ name: `E-${number} shell skin temperature`, like: 'hotOut' }],
  },
  {
    name: 'e101_t_hot_out',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return { name: join('_', `e${number}`, kind.toLowerCase(), side, end), unit };
    },
    decoys: ({ number }) => [
      { name: `e${number}b_t_hot_out`, unit: 'degC', like: 'hotOut' },
      { name: `e${number + 50}_t_hot_out`, unit: 'degC', like: 'hotOut' },
    ],
  },
  {
    name: 'E101TI01, nothing said of side and end',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind } = partsOf(sensor);
      const place = ['coldOut', 'hotIn', 'coldIn', 'hotOut'].indexOf(sensor) + 1;
      return {
        name: `E${number}_${kind === 'T' ? 'TI' : kind === 'F' ? 'FI' : 'PDI'}${sensor.startsWith('cold') ? 'B' : 'A'}_P${place}`,
        unit,
      };
    },
    decoys: NO_DECOYS,
  },
  {
    name: 'TT_E101_COLD_OUT beside totals and set points',
    tagOf: (n) => `E-${n}A`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: join('_', kind === 'T' ? 'TT' : kind === 'F' ? 'FT' : 'PDT', `E${number}A`, up(side), up(end)),
        unit,
      };
    },
    decoys: ({ number }) => [
      { name: `TT_E${number}B_COLD_OUT`, unit: 'degC', like: 'coldOut' },
      { name: `FQ_E${number}A_COLD`, unit: 'm3', like: 90_000 },
      { name: `FIC_E${number}A_COLD.SP`, unit: null, like: 'coldFlow' },
    ],
  },
  {
    name: 'cooling water by its abbreviations',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const stream =
        side === 'hot'
          ? `HOT ${end === '' ? '' : `${up(end)}LET`}`
          : end === ''
            ? 'CW'
            : end === 'in'
              ? 'CWS'
              : 'CWR';
      return {
        name: `${kind === 'T' ? 'TI' : kind === 'F' ? 'FI' : 'PDI'}${number}${side === 'hot' ? 'A' : 'C'}${end}`,
        description: `E-${number} ${stream} ${kind === 'DP' ? 'DIFF PRESSURE' : kind === 'T' ? 'TEMP' : 'FLOW'}`,
        unit,
      };
    },
    decoys: ({ number }) => [
      { name: `PI${number}C`, description: `E-${number} CWS PRESSURE`, unit: 'bar', like: 3 },
    ],
  },
  {
    name: 'T_HotOut_HX203 / degF',
    tagOf: (n) => `HX${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: `${kind === 'DP' ? 'dP' : kind}_${side === 'hot' ? 'Hot' : 'Cold'}${end === 'in' ? 'In' : end === 'out' ? 'Out' : ''}_HX${number}`,
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [
      { name: `T_Ambient_HX${number}`, unit: 'degC', like: 18 },
      { name: `T_HotOut_HX${number}_HiHi`, unit: null, like: 'hotOut' },
    ],
  },
];

/** Schemes put aside: chosen before the guess saw them; what was mended since did not look at them. */
export const HELD_OUT_SCHEMES: Scheme[] = [
  {
    name: 'A1:TIC2031.MEAS, described in capitals',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const letters = kind === 'T' ? 'TIC' : kind === 'F' ? 'FIC' : 'PDI';
      return {
        name: `A1:${letters}${number}${sensor.length}.MEAS`,
        description: `EXCH E-${number} ${up(side)} SIDE ${end === '' ? '' : `${up(end)}LET `}${kind === 'T' ? 'TEMP' : kind === 'F' ? 'FLOW RATE' : 'DELTA P'}`,
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [
      {
        name: `A1:TIC${number}5.SPT`,
        description: `EXCH E-${number} HOT SIDE OUTLET TEMP SETPOINT`,
        unit: 'degC',
        like: 'hotOut',
      },
      { name: `A1:PIC${number}6.MEAS`, description: `EXCH E-${number} SHELL PRESS`, unit: 'bar', like: 6 },
    ],
  },
  {
    name: 'plant/area2/E-203/hot/inlet/temperature',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: join(
          '/',
          'plant',
          'area2',
          `E-${number}`,
          side,
          end === '' ? '' : `${end}let`,
          kind === 'DP' ? 'dp' : KIND_WORDS[kind],
        ),
        unit,
      };
    },
    decoys: ({ number }) => [
      { name: `plant/area2/E-${number}/hot/inlet/pressure`, unit: 'bar', like: 5 },
      { name: `plant/area2/P-${number}/speed`, unit: 'rpm', like: 1450 },
      { name: `plant/area2/E-${number}/status`, unit: null, like: 1 },
    ],
  },
  {
    name: '203E.ColdOutTemp',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const cap = (text: string) => (text === '' ? '' : up(text[0]!) + text.slice(1));
      return {
        name: `${number}E.${cap(side)}${cap(end)}${kind === 'T' ? 'Temp' : kind === 'F' ? 'Flow' : 'PressDrop'}`,
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [
      { name: `${number}E.ColdOutTempMax`, unit: 'degC', like: 'coldOut' },
      { name: `${number}F.ColdOutTemp`, unit: 'degC', like: 'coldOut' },
    ],
  },
  {
    name: '[Area 7] HX203 / T out (cold)',
    tagOf: (n) => `HX-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: `[Area 7] HX${number} / ${kind === 'DP' ? 'dP' : kind} ${end} (${side})`,
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [
      { name: `[Area 7] HX${number} / dT (cold)`, unit: 'degC', like: 12 },
      { name: `[Area 7] HX${number} / T out (cold) alarm`, unit: null, like: 'coldOut' },
    ],
  },
  {
    name: 'HX 203 primary supply temp',
    tagOf: (n) => `HX-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const way = end === '' ? '' : (end === 'in') === (side === 'hot') ? 'supply' : 'return';
      return {
        name: join(
          ' ',
          `HX ${number}`,
          side === 'hot' ? 'primary' : 'secondary',
          way,
          kind === 'T' ? 'temp' : kind === 'F' ? 'flow' : 'dp',
        ),
        unit: plain(unit),
      };
    },
    decoys: ({ number }) => [{ name: `HX ${number} valve position`, unit: '%', like: 48 }],
  },
  {
    name: 'loop numbers alone, TI2031',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind } = partsOf(sensor);
      const loop = number * 10 + SENSOR_ORDER.indexOf(sensor);
      return { name: `${kind === 'T' ? 'TI' : kind === 'F' ? 'FI' : 'PDI'}${loop}`, unit: plain(unit) };
    },
    decoys: ({ number }) => [{ name: `TI${number}8`, unit: 'degC', like: 'hotOut' }],
  },
  {
    name: 'E203_TIN_H, no units of measure',
    tagOf: (n) => `E${n}`,
    sensor: (sensor, { number }) => {
      const { kind, side, end } = partsOf(sensor);
      return {
        name: `E${number}_${kind === 'T' ? `T${up(end)}` : kind === 'F' ? 'FLOW' : 'DP'}_${up(side[0]!)}`,
      };
    },
    decoys: ({ number }) => [
      { name: `E${number}_CALC_U`, like: 850 },
      { name: `E${number}_T_WALL`, like: 'hotOut' },
    ],
  },
  {
    name: 'process and cooling water, to and from',
    tagOf: (n) => `E-${n}`,
    sensor: (sensor, { number, unit }) => {
      const { kind, side, end } = partsOf(sensor);
      const stream = side === 'hot' ? 'process' : 'cooling water';
      const way = end === '' ? 'at' : end === 'in' ? 'inlet of' : 'outlet of';
      return {
        name: `${kind === 'T' ? 'TE' : kind === 'F' ? 'FE' : 'PDIT'}-${number}${up(sensor.slice(-2))}`,
        description: `${stream} ${kind === 'T' ? 'temp' : kind === 'F' ? 'flow' : 'differential pressure'} ${way} E-${number}`,
        unit,
      };
    },
    decoys: ({ number }) => [
      {
        name: `TE-${number}X`,
        description: `cooling water temp bypass of E-${number}`,
        unit: 'degC',
        like: 'coldOut',
      },
      {
        name: `AI-${number}`,
        description: `cooling water conductivity at E-${number}`,
        unit: 'uS/cm',
        like: 900,
      },
    ],
  },
];

const SENSOR_ORDER: Sensor[] = [
  'coldOut',
  'hotIn',
  'hotFlow',
  'coldIn',
  'hotOut',
  'coldFlow',
  'hotPressureDrop',
  'coldPressureDrop',
];

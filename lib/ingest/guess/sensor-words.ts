import type { Side } from '@/lib/core/exchange/exchanger';

export type Measured = 'temperature' | 'flow' | 'pressure-drop';
export type End = 'in' | 'out';

/** What a word of a name says of its column: each feature with how surely (logarithm of odds). */
export type Meaning = {
  measured?: [Measured, number];
  side?: [Side, number];
  end?: [End, number];
  /** It is none of our sensors: a set point, a level, a valve. */
  isOther?: true;
};

/** Clear words; shorter or softer ones weigh less. */
const CLEAR = 3.5;
const SHORT = 3;
const USUAL = 2.5;
const SINGLE = 2;
const SOFT = 1.2;

const temperature = (weight = SHORT): Meaning => ({ measured: ['temperature', weight] });
const flow = (weight = SHORT): Meaning => ({ measured: ['flow', weight] });
const pressureDrop = (weight = SHORT): Meaning => ({ measured: ['pressure-drop', weight] });
const side = (which: Side, weight: number): Meaning => ({ side: [which, weight] });
const end = (which: End, weight: number): Meaning => ({ end: [which, weight] });
const other: Meaning = { isOther: true };

const list = (words: string, meaning: Meaning): [string, Meaning][] =>
  words.split(' ').map((word) => [word, meaning]);

/** Words and abbreviations as they stand in instrument lists; letters of instruments as in ISA-5.1. */
export const SENSOR_WORDS = new Map<string, Meaning>([
  ...list('TEMP TEMPERATURE TMP TEMPERATUR TEMPERATURA', temperature(CLEAR)),
  ...list('TI TE TT TIC TIT TR TRC TIR TX TICA TIA TRA', temperature()),
  ...list('T TC', temperature(SINGLE)),
  ...list('FLOW FLW FLOWRATE MASSFLOW VOLFLOW DURCHFLUSS CAUDAL VAZAO MDOT', flow(CLEAR)),
  ...list('FI FT FE FIC FIT FR FRC FIR FX FICA FIA FRA', flow()),
  ...list('F', flow(SINGLE)),
  ...list('PDI PDT PDIC PDIT PDR DPI DPT DPIT DPIC PDIA DP PD PDIFF DELTAP PDROP DPRESS ΔP', pressureDrop()),
  ...list('HOT', side('hot', CLEAR)),
  ...list('WARM HEISS', side('hot', SHORT)),
  ...list('H', side('hot', SINGLE)),
  ...list('STEAM STM HW', side('hot', USUAL)),
  ...list('PRIMARY PRIM PRI', side('hot', SOFT)),
  ...list('COLD', side('cold', CLEAR)),
  ...list('KALT', side('cold', SHORT)),
  ...list('C', side('cold', SINGLE)),
  ...list('CW CHW COOLANT SEAWATER COOLINGWATER', side('cold', USUAL)),
  ...list('COOLING', side('cold', SINGLE)),
  ...list('SECONDARY SEC', side('cold', SOFT)),
  ...list('INLET EINTRITT ENTRADA ENTREE', end('in', CLEAR)),
  ...list('IN INL INLT ENTERING ENTRY', end('in', SHORT)),
  ...list('EIN', end('in', USUAL)),
  ...list('SUPPLY SUP SPLY VORLAUF VL UPSTREAM', end('in', SOFT)),
  ...list('I', end('in', SOFT)),
  ...list('OUTLET AUSTRITT SALIDA SORTIE SAIDA', end('out', CLEAR)),
  ...list('OUT OUTL OUTLT OTLT EXIT LEAVING LVG', end('out', SHORT)),
  ...list('AUS', end('out', USUAL)),
  ...list('RETURN RET RTN RUECKLAUF RÜCKLAUF RL DISCHARGE DISCH DOWNSTREAM', end('out', SOFT)),
  ...list('O', end('out', SOFT)),
  ['CWS', { side: ['cold', USUAL], end: ['in', USUAL] }],
  ['CWR', { side: ['cold', USUAL], end: ['out', USUAL] }],
  ['CHWS', { side: ['cold', USUAL], end: ['in', USUAL] }],
  ['CHWR', { side: ['cold', USUAL], end: ['out', USUAL] }],
  ['HWS', { side: ['hot', USUAL], end: ['in', USUAL] }],
  ['HWR', { side: ['hot', USUAL], end: ['out', USUAL] }],
  ['HI', { side: ['hot', SOFT], end: ['in', SOFT] }],
  ['HO', { side: ['hot', SOFT], end: ['out', SOFT] }],
  ['CI', { side: ['cold', SOFT], end: ['in', SOFT] }],
  ['CO', { side: ['cold', SOFT], end: ['out', SOFT] }],
  ['HIN', { side: ['hot', SHORT], end: ['in', SHORT] }],
  ['HOUT', { side: ['hot', SHORT], end: ['out', SHORT] }],
  ['CIN', { side: ['cold', SHORT], end: ['in', SHORT] }],
  ['COUT', { side: ['cold', SHORT], end: ['out', SHORT] }],
  ['THI', { ...temperature(), side: ['hot', SHORT], end: ['in', SHORT] }],
  ['THO', { ...temperature(), side: ['hot', SHORT], end: ['out', SHORT] }],
  ['TCI', { ...temperature(), side: ['cold', SHORT], end: ['in', SHORT] }],
  ['TCO', { ...temperature(), side: ['cold', SHORT], end: ['out', SHORT] }],
  ['TH', { ...temperature(), side: ['hot', USUAL] }],
  ['TIN', { ...temperature(), end: ['in', SHORT] }],
  ['TOUT', { ...temperature(), end: ['out', SHORT] }],
  ['EWT', { ...temperature(), end: ['in', USUAL] }],
  ['LWT', { ...temperature(), end: ['out', USUAL] }],
  ['FH', { ...flow(SINGLE), side: ['hot', USUAL] }],
  ['MH', { ...flow(SINGLE), side: ['hot', USUAL] }],
  ['FC', { ...flow(SINGLE), side: ['cold', SOFT] }],
  ['MC', { ...flow(SINGLE), side: ['cold', SOFT] }],
  ...list('SP SETPOINT SETPT STPT OP MV MODE CMD STATUS STAT QUALITY QUAL ALARM ALM HIHI LOLO HH LL', other),
  ...list('TOT TOTAL TOTALISER TOTALIZER CALC CALCULATED DUTY HEATDUTY RF FOULING LMTD APPROACH', other),
  ...list('VALVE VLV POS POSN POSITION LEVEL LVL SPEED RPM AMPS CURRENT POWER VIB VIBRATION BEARING', other),
  ...list('SKIN WALL TUBEWALL METAL AMBIENT AMB WETBULB BYPASS BYP DENSITY DENS VISC VISCOSITY', other),
  ...list('MAX MIN STDEV STDDEV COUNT RATIO DEVIATION DEV DT TDI TDT TDIC TDIFF DELTAT ΔT HUMIDITY', other),
  ...list('TARGET LIMIT DESIGN MODEL FORECAST SPARE DRAIN VENT PH CONDUCTIVITY TURBIDITY', other),
  ...list('FQ FQI FQT FIQ FFC FFI FV TV LV XV HV ZV UV FCV TCV TAH TAL FAH FAL TSH TSL FSL', other),
]);

/** Letters of other instruments; some are words too, so they count only beside a number. */
export const OTHER_INSTRUMENTS = new Set(
  'PI PT PIC PIT PR PRC LI LT LIC LIT LR LG AI AE AT AIC AIT QI SI ST SIC II IT VI VT VE ZI ZT JI JT WI WT HS HC HIC'.split(
    ' ',
  ),
);

/** Words that say nothing but may be a part of a longer one: HOTSIDE, TEMPPV. */
export const NEUTRAL_WORDS = new Set(['SIDE', 'PV', 'WATER', 'STREAM', 'MASS', 'VOL', 'AVG']);

import type { FluidSpec } from '../fluids/fluid';

/** How the two streams pass each other. */
export type Arrangement =
  | { kind: 'counter-current' }
  | { kind: 'co-current' }
  | { kind: 'shell-and-tube'; shellPasses: number; tubePasses: number; tubeSide: Side }
  | { kind: 'crossflow'; mixed: 'none' | 'hot' | 'cold' | 'both' }
  | { kind: 'plate'; hotPasses: number; coldPasses: number; flow: 'counter' | 'parallel' };

export const TEMPERATURE_SENSORS = ['hotIn', 'hotOut', 'coldIn', 'coldOut'] as const;
export const FLOW_SENSORS = ['hotFlow', 'coldFlow'] as const;
export const PRESSURE_DROP_SENSORS = ['hotPressureDrop', 'coldPressureDrop'] as const;
export const SENSORS = [...TEMPERATURE_SENSORS, ...FLOW_SENSORS, ...PRESSURE_DROP_SENSORS] as const;
export type TemperatureSensor = (typeof TEMPERATURE_SENSORS)[number];
export type FlowSensor = (typeof FLOW_SENSORS)[number];
export type Sensor = (typeof SENSORS)[number];
export type Side = 'hot' | 'cold';

/** One sensor's standard uncertainty: `absolute` in the sensor's SI unit [K, kg/s, Pa] plus `relative` of the reading. */
export type SensorUncertainty = {
  absolute: number;
  relative: number;
  /** Share of the variance that is the same in every reading (calibration, position); averaging does not shrink it. */
  systematicShare: number;
};

/** The clean duty point of the datasheet: temperatures [°C], mass flows [kg/s], conductance [W/(m²·K)]. */
export type DesignPoint = {
  hotIn: number;
  hotOut: number;
  coldIn: number;
  coldOut: number;
  hotFlow: number;
  coldFlow: number;
  /** Clean overall conductance at this point; null when it follows from the temperatures and flows. */
  cleanU: number | null;
};

/** Shares of the clean resistance at the design point (hot + wall + cold = 1) and exponents of film coefficient on flow. */
export type Films = { hotShare: number; wallShare: number; hotExponent: number; coldExponent: number };

export type Limit =
  | { kind: 'fouling-resistance'; value: number }
  | { kind: 'cleanliness'; below: number }
  | { kind: 'outlet-temperature'; stream: Side; above: number | null; below: number | null }
  | { kind: 'pressure-drop'; stream: Side; above: number };

/** What is known of a unit beside its heat transfer that decides what fouling costs. */
export type LossSettings = {
  /** Stream whose outlet a control valve holds by the flow of the other one: the duty is then fixed; null for neither. */
  heldOutlet: Side | null;
  /** Of pump and motor together [-]. */
  pumpEfficiency: number;
  /** Pressure drop of the clean unit at the design flow [Pa]; null where not stated. */
  cleanPressureDrop: Record<Side, number | null>;
  /** Pressure that the pump works against whatever the flow, a valve taking up the rest [Pa]; null where not stated. */
  pumpHead: Record<Side, number | null>;
  /** Flow with the control valve fully open [kg/s]; null where not stated. */
  maximumFlow: Record<Side, number | null>;
};

/** A unit as the numeric core sees it: everything SI (temperatures °C), no names of people or places. */
export type Exchanger = {
  arrangement: Arrangement;
  /** Effective heat-transfer area [m²]. */
  area: number;
  hot: FluidSpec;
  cold: FluidSpec;
  /** Where each volume meter sits: its density is taken at that temperature. */
  hotMeterAt: 'inlet' | 'outlet';
  coldMeterAt: 'inlet' | 'outlet';
  design: DesignPoint;
  films: Films;
  /** `datasheet`: clean reference as stated; `test`: scaled to one clean test; `learned`: from readings just after a cleaning. */
  clean: 'datasheet' | 'test' | 'learned';
  /** Constant flows to assume where there is no meter [kg/s]; their uncertainty is that of the flow sensor. */
  nominalFlows: { hot: number | null; cold: number | null };
  /** Exponents of pressure drop on mass flow [-]. */
  pressureDropExponents: { hot: number; cold: number };
  limits: Limit[];
  sensors: Record<Sensor, SensorUncertainty>;
  losses: LossSettings;
};

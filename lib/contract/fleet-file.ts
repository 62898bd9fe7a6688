import { z } from 'zod';
import { positiveQuantity, quantity, unsignedQuantity } from './quantity';
import { streamSchema } from './stream';
import { conversionToSi } from './ucum';

const fraction = z.number().min(0).max(1);

export const arrangementSchema = z
  .object({
    kind: z.enum(['counter-current', 'co-current', 'shell-and-tube', 'crossflow', 'plate']),
    shellPasses: z.int().min(1).max(12).optional(),
    tubePasses: z.int().min(1).max(24).optional(),
    mixed: z.enum(['none', 'hot', 'cold', 'both']).optional(),
    hotPasses: z.int().min(1).max(3).optional(),
    coldPasses: z.int().min(1).max(3).optional(),
  })
  .meta({ id: 'Arrangement', description: 'How the two streams pass each other' });

const nozzleSchema = z.enum(['top', 'bottom']);

const flow = () => positiveQuantity('massFlow', 'volumeFlow');

export const designSchema = z
  .object({
    hotIn: quantity('temperature'),
    hotOut: quantity('temperature'),
    coldIn: quantity('temperature'),
    coldOut: quantity('temperature'),
    hotFlow: flow(),
    coldFlow: flow(),
    cleanU: positiveQuantity('conductance').optional(),
  })
  .meta({ id: 'DesignPoint', description: 'The clean duty point of the datasheet' });

export const filmsSchema = z
  .object({
    hotShare: fraction.optional(),
    wallShare: fraction.optional(),
    hotExponent: z.number().min(0).max(1).optional(),
    coldExponent: z.number().min(0).max(1).optional(),
  })
  .refine((films) => (films.hotShare ?? 0) + (films.wallShare ?? 0) <= 1, {
    path: ['hotShare'],
    message: 'hotShare and wallShare together must not exceed 1; the rest is the cold film',
  })
  .meta({ id: 'Films' });

const streamSide = z.enum(['hot', 'cold']);

export const limitSchema = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('fouling-resistance'), value: positiveQuantity('foulingResistance') }),
    z.object({ kind: z.literal('cleanliness'), below: fraction.refine((share) => share > 0 && share < 1) }),
    z
      .object({
        kind: z.literal('outlet-temperature'),
        stream: streamSide,
        above: quantity('temperature').optional(),
        below: quantity('temperature').optional(),
      })
      .refine((limit) => (limit.above === undefined) !== (limit.below === undefined), {
        message: 'state either "above" or "below"',
      }),
    z.object({ kind: z.literal('pressure-drop'), stream: streamSide, above: positiveQuantity('pressure') }),
  ])
  .meta({ id: 'Limit' });

const systematicShare = fraction
  .optional()
  .meta({ description: 'Share of the variance that is the same in every reading; default 0.5' });

const sensorSchema = (kind: 'temperatureDifference' | 'pressure') =>
  z.object({ uncertainty: unsignedQuantity(kind).or(z.number().min(0).max(1)), systematicShare }).partial();

const flowSensorSchema = z
  .object({
    uncertainty: z.number().min(0).max(1).or(unsignedQuantity('massFlow', 'volumeFlow')),
    systematicShare,
    at: z.enum(['inlet', 'outlet']),
    nominal: flow().meta({
      description:
        'Constant flow to assume where there is no meter, such as the rated flow of a fixed-speed pump',
    }),
  })
  .partial();

export const sensorsSchema = z
  .object({
    hotIn: sensorSchema('temperatureDifference'),
    hotOut: sensorSchema('temperatureDifference'),
    coldIn: sensorSchema('temperatureDifference'),
    coldOut: sensorSchema('temperatureDifference'),
    hotFlow: flowSensorSchema,
    coldFlow: flowSensorSchema,
    hotPressureDrop: sensorSchema('pressure'),
    coldPressureDrop: sensorSchema('pressure'),
  })
  .partial()
  .meta({ id: 'Sensors', description: 'Standard uncertainty (one standard deviation) of each sensor' });

const energyUnit = z
  .string()
  .refine((unit) => conversionToSi(unit, 'energy') !== null, 'is no unit of energy; use kW.h, MW.h or MJ');

export const energySchema = z
  .object({
    effect: z.enum(['heating', 'cooling', 'recovery']),
    price: z.object({ amount: z.number().min(0), per: energyUnit }).optional(),
    efficiency: z.number().gt(0).max(20).optional().meta({ description: 'Efficiency, or COP for cooling' }),
    carbon: z.object({ kg: z.number().min(0), per: energyUnit }).optional(),
  })
  .meta({ id: 'Energy' });

export const cleaningSettingsSchema = z
  .object({
    cost: z.number().min(0),
    duration: positiveQuantity('duration'),
    crewHours: z.number().min(0),
    method: z.string().max(120),
  })
  .partial()
  .meta({ id: 'CleaningSettings' });

export const checksSchema = z
  .object({
    minimumTemperature: quantity('temperature'),
    maximumTemperature: quantity('temperature'),
    maximumFlowShare: z.number().gt(1).max(100),
    offFlowShare: fraction,
    turndownFlowShare: fraction,
    frozenHours: z.number().min(1).max(48),
    spikeHalfWindow: z.int().min(2).max(24),
    spikeThreshold: z.number().min(2).max(50),
    terminalDifferenceMultiple: z.number().min(0).max(20),
    balanceTolerance: z.number().gt(0).max(1),
    balanceUncertaintyMultiple: z.number().min(1).max(10),
    settlingMinutes: z.number().min(0).max(240),
    steadyMultiple: z.number().min(1).max(20),
  })
  .partial()
  .meta({
    id: 'Checks',
    description: 'Thresholds of the screening; each has a default that suits hourly data',
  });

export const platesSchema = z
  .object({
    count: z.int().min(3).max(2000),
    areaEach: positiveQuantity('area'),
    channelGap: positiveQuantity('length').optional().meta({
      description:
        'Mean gap between neighbouring plates; with channelWidth it gives the velocity in the channels',
    }),
    channelWidth: positiveQuantity('length')
      .optional()
      .meta({ description: 'Width of a channel between its gaskets' }),
  })
  .meta({ id: 'Plates' });

const temperatureOfTest = quantity('temperature').optional();

/** One test of the clean unit: what was measured on the day it was known to be clean. */
export const cleanTestSchema = z
  .object({
    at: z.iso.datetime({ offset: true }).optional(),
    hotIn: temperatureOfTest,
    hotOut: temperatureOfTest,
    coldIn: temperatureOfTest,
    coldOut: temperatureOfTest,
    hotFlow: flow().optional(),
    coldFlow: flow().optional(),
  })
  .meta({
    id: 'CleanTest',
    description: 'Readings of one test of the clean unit; one of the six may be left out',
  });

export const unitSchema = z
  .object({
    tag: z
      .string()
      .regex(
        /^[\p{L}\p{N}][\p{L}\p{N} ._/-]{0,39}$/u,
        'a tag starts with a letter or digit and has at most 40 letters, digits, spaces or . _ / -',
      ),
    service: z.string().max(120).optional(),
    construction: z.enum(['plate', 'shell-and-tube', 'double-pipe', 'air-cooled', 'other']).optional(),
    arrangement: arrangementSchema,
    tubeSide: z.enum(['hot', 'cold']).optional().meta({
      description:
        'Stream inside the tubes; default cold. Decides the default film exponents and, from four tube passes in a shell, the effectiveness',
    }),
    nozzles: z.object({ hotIn: nozzleSchema, coldIn: nozzleSchema }).optional(),
    area: positiveQuantity('area').optional(),
    plates: platesSchema.optional(),
    hot: streamSchema,
    cold: streamSchema,
    design: designSchema,
    films: filmsSchema.optional(),
    clean: z.enum(['datasheet', 'test', 'learned']).optional().meta({
      description:
        'Where the clean reference comes from: the datasheet, one clean test, or readings after a cleaning',
    }),
    cleanTest: cleanTestSchema.optional(),
    pressureDrop: z
      .object({ hotExponent: z.number().min(1).max(2.2), coldExponent: z.number().min(1).max(2.2) })
      .partial()
      .optional()
      .meta({ id: 'PressureDrop', description: 'Exponent of pressure drop on flow; 1.8 where not stated' }),
    validFrom: z.iso.datetime({ offset: true }).optional().meta({
      description:
        'Since when the equipment is as stated here (plates added, tubes plugged); earlier readings keep the datasheet before',
    }),
    limits: z.array(limitSchema).min(1),
    sensors: sensorsSchema.optional(),
    checks: checksSchema.optional(),
    energy: energySchema.optional(),
    cleaning: cleaningSettingsSchema.optional(),
  })
  .refine((unit) => (unit.area === undefined) !== (unit.plates === undefined), {
    path: ['area'],
    message: 'state either "area" or "plates" (count and areaEach)',
  })
  .refine((unit) => unit.clean !== 'test' || unit.cleanTest !== undefined, {
    path: ['cleanTest'],
    message: 'is required where "clean" is "test": state the readings of the clean test',
  })
  .meta({ id: 'Unit' });

export const siteSchema = z
  .object({
    name: z.string().min(1).max(80),
    timeZone: z.string().refine(isTimeZone, 'is not a time zone of the IANA list, such as Europe/Lisbon'),
    currency: z.string().regex(/^[A-Z]{3}$/, 'use a three-letter ISO 4217 code, such as EUR'),
  })
  .meta({ id: 'Site' });

export const fleetFileSchema = z
  .object({ site: siteSchema, units: z.array(unitSchema).min(1) })
  .superRefine((fleet, context) => {
    const seen = new Map<string, number>();
    fleet.units.forEach((unit, index) => {
      const first = seen.get(unit.tag);
      if (first === undefined) seen.set(unit.tag, index);
      else
        context.addIssue({
          code: 'custom',
          path: ['units', index, 'tag'],
          message: `tag "${unit.tag}" stands already at units[${first}]`,
        });
    });
  })
  .meta({ id: 'Fleet' });

/** Whether a name is a time zone of the IANA list. */
export function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

export type Unit = z.infer<typeof unitSchema>;
export type Site = z.infer<typeof siteSchema>;
export type FleetFile = z.infer<typeof fleetFileSchema>;

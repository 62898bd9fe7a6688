import { z } from 'zod';
import { onlyKnown } from './only-known';
import { positiveQuantity, quantity, unsignedQuantity } from './quantity';
import { streamSchema } from './stream';
import { conversionToSi } from './ucum';

const fraction = z.number().min(0).max(1);

export const arrangementSchema = onlyKnown({
  kind: z.enum(['counter-current', 'co-current', 'shell-and-tube', 'crossflow', 'plate']),
  shellPasses: z.int().min(1).max(12).optional(),
  tubePasses: z.int().min(1).max(24).optional(),
  mixed: z.enum(['none', 'hot', 'cold', 'both']).optional(),
  hotPasses: z.int().min(1).max(3).optional(),
  coldPasses: z.int().min(1).max(3).optional(),
}).meta({ id: 'Arrangement', description: 'How the two streams pass each other' });

const nozzleSchema = z.enum(['top', 'bottom']);

const flow = () => positiveQuantity('massFlow', 'volumeFlow');

export const designSchema = onlyKnown({
  hotIn: quantity('temperature'),
  hotOut: quantity('temperature'),
  coldIn: quantity('temperature'),
  coldOut: quantity('temperature'),
  hotFlow: flow(),
  coldFlow: flow(),
  cleanU: positiveQuantity('conductance').optional(),
}).meta({ id: 'DesignPoint', description: 'The clean duty point of the datasheet' });

export const filmsSchema = onlyKnown({
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
    onlyKnown({ kind: z.literal('fouling-resistance'), value: positiveQuantity('foulingResistance') }),
    onlyKnown({ kind: z.literal('cleanliness'), below: fraction.refine((share) => share > 0 && share < 1) }),
    onlyKnown({
      kind: z.literal('outlet-temperature'),
      stream: streamSide,
      above: quantity('temperature').optional(),
      below: quantity('temperature').optional(),
    }).refine((limit) => (limit.above === undefined) !== (limit.below === undefined), {
      message: 'state either "above" or "below"',
    }),
    onlyKnown({ kind: z.literal('pressure-drop'), stream: streamSide, above: positiveQuantity('pressure') }),
  ])
  .meta({ id: 'Limit' });

const systematicShare = fraction
  .optional()
  .meta({ description: 'Share of the variance that is the same in every reading; default 0.5' });

const sensorSchema = (kind: 'temperatureDifference' | 'pressure') =>
  onlyKnown({ uncertainty: unsignedQuantity(kind).or(z.number().min(0).max(1)), systematicShare }).partial();

const flowSensorSchema = onlyKnown({
  uncertainty: z.number().min(0).max(1).or(unsignedQuantity('massFlow', 'volumeFlow')),
  systematicShare,
  at: z.enum(['inlet', 'outlet']),
  nominal: flow().meta({
    description:
      'Constant flow to assume where there is no meter, such as the rated flow of a fixed-speed pump',
  }),
}).partial();

export const sensorsSchema = onlyKnown({
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

/** What energy costs and emits, per unit of it bought. */
const pricedEnergy = {
  price: onlyKnown({ amount: z.number().min(0), per: energyUnit }).optional(),
  carbon: onlyKnown({ kg: z.number().min(0), per: energyUnit }).optional(),
};

const supplyName = z.string().trim().min(1).max(60);

export const energySchema = onlyKnown({
  effect: z.enum(['heating', 'cooling', 'recovery']),
  supply: supplyName.optional().meta({
    description:
      'Supply of the site that makes up for lost heat; its dated prices and factors take the place of the ones stated here',
  }),
  ...pricedEnergy,
  efficiency: z.number().gt(0).max(20).optional().meta({ description: 'Efficiency, or COP for cooling' }),
  heldOutlet: z.enum(['hot', 'cold']).optional().meta({
    description:
      'Stream whose outlet temperature a control valve holds by the flow of the other stream: the duty is then fixed, and what fouling costs is the extra flow',
  }),
}).meta({ id: 'Energy' });

export const pumpingSchema = onlyKnown({
  supply: supplyName.optional().meta({ description: 'Supply of the site that drives the pumps' }),
  ...pricedEnergy,
  efficiency: z
    .number()
    .gt(0)
    .max(1)
    .optional()
    .meta({ description: 'Of pump and motor together; 0.7 where not stated' }),
  hotClean: positiveQuantity('pressure')
    .optional()
    .meta({ description: 'Pressure drop of the clean unit on the hot side at the design flow' }),
  coldClean: positiveQuantity('pressure').optional(),
  hotHead: positiveQuantity('pressure').optional().meta({
    description: 'Pressure the pump of the hot stream works against, where a valve takes up the rest',
  }),
  coldHead: positiveQuantity('pressure').optional(),
  hotMaximumFlow: flow()
    .optional()
    .meta({ description: 'Flow with the control valve fully open: what is left below it is the margin' }),
  coldMaximumFlow: flow().optional(),
}).meta({ id: 'Pumping', description: 'What extra pressure drop or flow costs' });

const careNote = z.string().max(1000);

export const cleaningSettingsSchema = onlyKnown({
  cost: z.number().min(0),
  duration: positiveQuantity('duration'),
  crewHours: z.number().min(0),
  method: z.string().max(120),
  inOutageOnly: z.boolean().meta({
    description: 'The unit cannot be taken out while its plant runs: it is cleaned in outages only',
  }),
  downtimePerHour: z.number().min(0).meta({
    description:
      'Money lost for each hour out of service outside an outage; where not stated, the price of its whole duty',
  }),
  isolation: careNote.meta({
    description: 'How this unit is isolated, drained and vented; printed with the work',
  }),
  compatibility: careNote.meta({
    description: 'What its materials and gaskets stand and do not stand; printed with the work',
  }),
})
  .partial()
  .meta({ id: 'CleaningSettings' });

export const checksSchema = onlyKnown({
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

export const platesSchema = onlyKnown({
  count: z.int().min(3).max(2000),
  areaEach: positiveQuantity('area'),
  channelGap: positiveQuantity('length').optional().meta({
    description:
      'Mean gap between neighbouring plates; with channelWidth it gives the velocity in the channels',
  }),
  channelWidth: positiveQuantity('length')
    .optional()
    .meta({ description: 'Width of a channel between its gaskets' }),
}).meta({ id: 'Plates' });

const temperatureOfTest = quantity('temperature').optional();

/** One test of the clean unit: what was measured on the day it was known to be clean. */
export const cleanTestSchema = onlyKnown({
  at: z.iso.datetime({ offset: true }).optional(),
  hotIn: temperatureOfTest,
  hotOut: temperatureOfTest,
  coldIn: temperatureOfTest,
  coldOut: temperatureOfTest,
  hotFlow: flow().optional(),
  coldFlow: flow().optional(),
}).meta({
  id: 'CleanTest',
  description: 'Readings of one test of the clean unit; one of the six may be left out',
});

export const unitSchema = onlyKnown({
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
  nozzles: onlyKnown({ hotIn: nozzleSchema, coldIn: nozzleSchema }).optional(),
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
  pressureDrop: onlyKnown({
    hotExponent: z.number().min(1).max(2.2),
    coldExponent: z.number().min(1).max(2.2),
  })
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
  pumping: pumpingSchema.optional(),
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

export const siteSchema = onlyKnown({
  name: z.string().min(1).max(80),
  timeZone: z.string().refine(isTimeZone, 'is not a time zone of the IANA list, such as Europe/Lisbon'),
  currency: z.string().regex(/^[A-Z]{3}$/, 'use a three-letter ISO 4217 code, such as EUR'),
}).meta({ id: 'Site' });

const calendarDay = z.iso.date('write a day as YYYY-MM-DD');

/** What a supply costs and emits from a day on. */
export const datedPriceSchema = onlyKnown({ from: calendarDay, ...pricedEnergy })
  .refine(({ price, carbon }) => price !== undefined || carbon !== undefined, {
    message: 'state a price, a carbon factor, or both',
  })
  .meta({ id: 'DatedPrice' });

export const supplySchema = onlyKnown({ name: supplyName, dated: z.array(datedPriceSchema).min(1) }).meta({
  id: 'Supply',
  description: 'Energy a site buys: natural gas, electricity, steam, chilled water',
});

const remark = z
  .string()
  .max(1000)
  .optional()
  .meta({ description: 'For whoever reads or edits the file: it is not kept' });

export const fleetFileSchema = onlyKnown({
  $schema: remark,
  comment: remark,
  site: siteSchema.extend({ supplies: z.array(supplySchema).optional() }),
  units: z.array(unitSchema).min(1),
})
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
export type Supply = z.infer<typeof supplySchema>;
export type DatedPrice = z.infer<typeof datedPriceSchema>;
export type FleetFile = z.infer<typeof fleetFileSchema>;

import { z } from 'zod';
import { REASONS } from '@/lib/core/checks/reasons';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { unitSchema } from './fleet-file';
import { onlyKnown } from './only-known';
import { quantity } from './quantity';

/** The columns of the canonical readings CSV after `tag` and `time`, and the sensor each holds. */
export const READING_COLUMNS = {
  hot_in: 'hotIn',
  hot_out: 'hotOut',
  cold_in: 'coldIn',
  cold_out: 'coldOut',
  hot_flow: 'hotFlow',
  cold_flow: 'coldFlow',
  hot_dp: 'hotPressureDrop',
  cold_dp: 'coldPressureDrop',
} as const;

export const sensorSchema = z.enum(SENSORS);
export const reasonSchema = z.enum(REASONS);

const temperature = quantity('temperature').nullish();
const flow = quantity('massFlow', 'volumeFlow').nullish();
const pressureDrop = quantity('pressure').nullish();

const values = {
  hotIn: temperature,
  hotOut: temperature,
  coldIn: temperature,
  coldOut: temperature,
  hotFlow: flow,
  coldFlow: flow,
  hotPressureDrop: pressureDrop,
  coldPressureDrop: pressureDrop,
};

export const readingSchema = onlyKnown({ time: z.iso.datetime({ offset: true }), ...values }).meta({
  id: 'Reading',
  description: 'One reading; a value that is absent or null was not measured',
});

const lineTime = z.iso.datetime({ offset: true, local: true }).meta({
  description: 'ISO 8601; without an offset it is a time of the zone that is named for the file',
});

/** A line of a file of JSON lines: the readings of one unit and time, or the value of one sensor and time. */
export const readingLineSchema = z
  .union([
    onlyKnown({ tag: z.string().min(1), time: lineTime, ...values }),
    onlyKnown({
      tag: z.string().min(1).optional(),
      sensor: z.string().min(1).meta({
        description: 'A name of the mapping, E-101.hotIn, or hotIn beside a tag',
      }),
      time: lineTime,
      value: z.number().nullish(),
      unit: z.string().min(1).optional().meta({ description: 'UCUM code; may be left to the mapping' }),
    }),
  ])
  .meta({
    id: 'ReadingLine',
    description:
      'One JSON document per line. A number without its unit is set aside; a status word (Bad, No Data) in the place of a value or a quantity counts as not measured',
  });

export const evaluateRequestSchema = onlyKnown({ unit: unitSchema, readings: z.array(readingSchema) }).meta({
  id: 'EvaluateRequest',
});

export type Reading = z.infer<typeof readingSchema>;

const figure = z.number().nullable();

export const evaluatedReadingSchema = z
  .object({
    time: z.string(),
    accepted: z.boolean(),
    reasons: z.array(reasonSchema),
    hotDuty: figure,
    coldDuty: figure,
    duty: figure,
    balance: figure,
    lmtd: figure,
    correction: figure,
    effectiveness: figure,
    ntu: figure,
    UA: figure,
    U: figure,
    cleanU: figure,
    foulingResistance: figure,
    cleanliness: figure,
    uncertainty: z.object({ duty: figure, U: figure, foulingResistance: figure }),
    lostDuty: figure,
    inferred: z.array(sensorSchema).meta({ description: 'Not measured: worked out from the heat balance' }),
    nominal: z
      .array(sensorSchema)
      .meta({ description: 'Flows not measured that stood in at the constant value of the datasheet' }),
    missing: z.array(sensorSchema).meta({
      description:
        'Empty unless values are missing for an evaluation. With missingTogether false: sensors any one of which would make this reading evaluable; with missingTogether true, where no single one would: the shortest list of sensors that would do so together',
    }),
    missingTogether: z.boolean(),
    reference: z.enum(['datasheet', 'test']).meta({
      description:
        'Clean reference the reading was compared with; a learned one needs the unit’s record, without which the datasheet’s stands in',
    }),
  })
  .meta({ id: 'EvaluatedReading' });

export type EvaluatedReading = z.infer<typeof evaluatedReadingSchema>;

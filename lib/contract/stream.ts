import { z } from 'zod';
import { onlyKnown } from './only-known';
import { kindInWords, positiveQuantity, quantity } from './quantity';
import { conversionToSi, type Kind, SI_UNIT } from './ucum';

const constantOr = (...kinds: Parameters<typeof quantity>) => positiveQuantity(...kinds).optional();

const properties = {
  specificHeat: positiveQuantity('specificHeat'),
  density: constantOr('density'),
  viscosity: constantOr('viscosity'),
  conductivity: constantOr('conductivity'),
};

/** c₀ + c₁·t + c₂·t² + …, t in °C whatever unit the range is stated in; the sum is in `unit`. */
const polynomial = (kind: Kind) =>
  onlyKnown({
    coefficients: z.array(z.number()).min(1).max(10),
    unit: z.string().refine((unit) => conversionToSi(unit, kind) !== null, {
      message: `is no unit of ${kindInWords(kind)}; use for example ${SI_UNIT[kind]}`,
    }),
  }).meta({ description: 'Coefficients of the powers of the temperature in °C, the constant first' });

const polynomialSchema = onlyKnown({
  from: quantity('temperature'),
  to: quantity('temperature'),
  specificHeat: polynomial('specificHeat'),
  density: polynomial('density').optional(),
  viscosity: polynomial('viscosity').optional(),
  conductivity: polynomial('conductivity').optional(),
}).meta({ description: 'Properties as polynomials in °C; nothing is extrapolated beyond from … to' });

const vaporisation = {
  latentHeat: positiveQuantity('specificEnthalpy')
    .optional()
    .meta({ description: 'Makes the stream condense on the hot side, evaporate on the cold one' }),
  saturationTemperature: quantity('temperature')
    .optional()
    .meta({ description: 'Where the stream condenses or boils; where not stated, the inlet temperature' }),
};

const customPropertiesSchema = z
  .union([
    onlyKnown({ polynomial: polynomialSchema, ...vaporisation }),
    onlyKnown({
      table: z.array(onlyKnown({ temperature: quantity('temperature'), ...properties })).min(2),
      ...vaporisation,
    }),
    onlyKnown({ ...properties, ...vaporisation }),
  ])
  .refine((stated) => stated.saturationTemperature === undefined || stated.latentHeat !== undefined, {
    path: ['latentHeat'],
    message: 'is required where a saturation temperature is stated',
  });

const oilViscositySchema = onlyKnown({
  temperature: quantity('temperature'),
  value: positiveQuantity('viscosity', 'kinematicViscosity'),
});

export const streamSchema = onlyKnown({
  fluid: z.enum([
    'water',
    'steam',
    'seawater',
    'ethylene-glycol',
    'propylene-glycol',
    'oil',
    'air',
    'custom',
  ]),
  name: z.string().min(1).max(60).optional(),
  concentration: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .meta({ description: 'Mass fraction of glycol, or salinity of sea water' }),
  pressure: positiveQuantity('pressure').optional().meta({ description: 'Absolute pressure' }),
  density: positiveQuantity('density').optional().meta({ description: 'Oil: density at 15 °C' }),
  characterisationFactor: z.number().min(10).max(13).optional(),
  viscosities: z.tuple([oilViscositySchema, oilViscositySchema]).optional().meta({
    description:
      'Oil: viscosity at two temperatures, dynamic or kinematic; without it the films are not corrected',
  }),
  properties: customPropertiesSchema.optional(),
}).meta({ id: 'Stream' });

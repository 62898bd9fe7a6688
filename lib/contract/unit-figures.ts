import { z } from 'zod';

const figure = z.number().nullable();

/** What follows from a datasheet: SI, null where something it needs is missing or cannot be. */
export const unitFiguresSchema = z
  .object({
    area: figure,
    channels: z.int().nullable(),
    hotChannels: z.number().nullable().meta({ description: 'Plate channels of the hot stream in each pass' }),
    coldChannels: z.number().nullable(),
    hotChannelVelocity: figure.meta({ description: 'In the plate channels at the design flow, m/s' }),
    coldChannelVelocity: figure,
    hotChannelReynolds: figure,
    coldChannelReynolds: figure,
    direction: z.enum(['counter', 'parallel']).nullable(),
    advice: z.array(z.enum(['heated-stream-falls', 'cooled-stream-rises'])),
    hotMassFlow: figure,
    coldMassFlow: figure,
    hotDuty: figure,
    coldDuty: figure,
    balance: figure,
    lmtd: figure,
    correction: figure,
    effectiveness: figure,
    ntu: figure,
    impliedU: figure.meta({ description: 'Conductance that the design temperatures and flows imply' }),
    cleanU: figure.meta({ description: 'Clean conductance used: the stated one, else the implied one' }),
    films: z
      .object({
        hotShare: z.number(),
        wallShare: z.number(),
        hotExponent: z.number(),
        coldExponent: z.number(),
      })
      .nullable()
      .meta({ description: 'As stated, the rest assumed by construction' }),
  })
  .meta({ id: 'UnitFigures' });

export type UnitFigures = z.infer<typeof unitFiguresSchema>;

import { z } from 'zod';
import { datedPriceSchema, supplySchema } from './fleet-file';
import { onlyKnown } from './only-known';
import { who } from './withdrawal';

const { from, price, carbon } = datedPriceSchema.shape;

/** What a supply of a site costs and emits from a day on; or that what was stated for that day no longer holds. */
export const priceRequestSchema = onlyKnown({
  site: z.string().trim().min(1, 'say which site'),
  supply: supplySchema.shape.name,
  from,
  price: price.nullish(),
  carbon: carbon.nullish(),
  withdraw: z.boolean().optional().meta({ description: 'Takes back what was stated from that day on' }),
  by: who,
  after: z.int().min(0).optional().meta({
    description:
      'Number of the newest statement you have seen: refused where a newer one stands for that supply and day',
  }),
  note: z.string().trim().max(500).nullish(),
})
  .refine(({ price, carbon, withdraw }) => withdraw || price || carbon, {
    path: ['price'],
    message: 'state a price, a carbon factor, or both',
  })
  .refine(({ price, carbon, withdraw }) => !withdraw || (!price && !carbon), {
    path: ['withdraw'],
    message: 'state no price and no factor where the entry is withdrawn',
  })
  .meta({
    id: 'PriceRequest',
    description: 'A second entry of one supply and day takes the place of the first as a whole',
  });

export type PriceRequest = z.infer<typeof priceRequestSchema>;

const amount = z.object({ amount: z.number(), per: z.string() }).nullable();
const factor = z.object({ kg: z.number(), per: z.string() }).nullable();

/** Every supply of every site with all that was stated of it, what datasheets state, and what nothing is stated for. */
export const pricesSchema = z
  .object({
    supplies: z.array(
      z.object({
        site: z.string(),
        currency: z.string(),
        supply: z.string(),
        dated: z.array(
          z.object({
            number: z.int(),
            from: z.string(),
            price: amount,
            carbon: factor,
            by: z.string().nullable(),
            note: z.string().nullable(),
            givenAt: z.string(),
            isInForce: z.boolean().meta({
              description: 'False where a later entry of the same day took its place, and for a withdrawal',
            }),
          }),
        ),
        usedBy: z.array(z.string()).meta({ description: 'Units whose lost heat it makes up for' }),
        pumpedBy: z.array(z.string()).meta({ description: 'Units whose pumps it drives' }),
      }),
    ),
    datasheets: z.array(
      z.object({ tag: z.string(), site: z.string(), currency: z.string(), price: amount, carbon: factor }),
    ),
    unpriced: z.array(z.object({ tag: z.string(), site: z.string(), reason: z.string() })),
  })
  .meta({ id: 'Prices' });

export type Prices = z.infer<typeof pricesSchema>;

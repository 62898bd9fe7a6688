import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type PriceRequest, priceRequestSchema } from '@/lib/contract/prices';
import { textOrNull } from '@/lib/report/unit/form-fields';

/** Fields of the form by what the contract calls them. */
const FIELDS: Record<string, string> = {
  price: 'amount',
  'price.amount': 'amount',
  'price.per': 'per',
  'carbon.kg': 'kg',
  'carbon.per': 'carbonPer',
};

/**
 * Reads the form of a dated price.
 *
 * @throws AppError 'invalid-input' naming each field of the form
 */
export function readPriceForm(fields: Record<string, string>): PriceRequest {
  const parsed = priceRequestSchema.safeParse({
    site: fields.site ?? '',
    supply: fields.supply ?? '',
    from: fields.from ?? '',
    price: perUnit(fields.amount, (amount) => ({ amount, per: fields.per ?? '' })),
    carbon: perUnit(fields.kg, (kg) => ({ kg, per: fields.carbonPer ?? '' })),
    withdraw: fields.withdraw === 'yes',
    after: fields.after === undefined || fields.after === '' ? undefined : Number(fields.after),
    note: textOrNull(fields.note),
  });
  if (parsed.success) return parsed.data;
  const faults = faultsOf(parsed.error).map(({ field, message }) => ({
    field: FIELDS[field] ?? field,
    message,
  }));
  throw new AppError('invalid-input', 'The price cannot be taken', faults);
}

function perUnit<Rate>(text: string | undefined, rateOf: (amount: number) => Rate): Rate | null {
  const written = textOrNull(text);
  return written === null ? null : rateOf(Number(written.replace(',', '.')));
}

import { z } from 'zod';
import { kindInWords } from './in-si';
import { onlyKnown } from './only-known';
import { conversionToSi, type Kind, SI_UNIT } from './ucum';

export { inSi, kindInWords, type Quantity } from './in-si';

const EXAMPLES: Partial<Record<Kind, string>> = {
  temperature: 'Cel, K or [degF]',
  temperatureDifference: 'K or [degF]',
  massFlow: 'kg/s, t/h or [lb_av]/h',
  volumeFlow: 'm3/h, L/s or [gal_us]/min',
  area: 'm2 or [ft_i]2',
  pressure: 'kPa, bar or [psi]',
  conductance: 'W/(m2.K) or [Btu_IT]/(h.[ft_i]2.[degF])',
  foulingResistance: 'm2.K/W or h.[ft_i]2.[degF]/[Btu_IT]',
  duration: 'h or d',
};

/** Schema of a quantity of one kind (or of either of several kinds): refuses a unit that does not measure it. */
export function quantity(...kinds: [Kind, ...Kind[]]) {
  return onlyKnown({ value: z.number(), unit: z.string().min(1) })
    .superRefine((given, context) => {
      if (kinds.some((kind) => conversionToSi(given.unit, kind) !== null)) return;
      context.addIssue({
        code: 'custom',
        path: ['unit'],
        message: `"${given.unit}" is no unit of ${kinds.map(kindInWords).join(' or ')}; use for example ${kinds
          .map((kind) => EXAMPLES[kind] ?? SI_UNIT[kind])
          .join(', or ')}`,
      });
    })
    .meta({ description: `Quantity: ${kinds.map(kindInWords).join(' or ')}, unit as UCUM code` });
}

/** A quantity of one kind that must be greater than zero. */
export function positiveQuantity(...kinds: [Kind, ...Kind[]]) {
  return quantity(...kinds).refine((given) => given.value > 0, {
    path: ['value'],
    message: 'must be greater than 0',
  });
}

/** A quantity of one kind that must not be negative. */
export function unsignedQuantity(...kinds: [Kind, ...Kind[]]) {
  return quantity(...kinds).refine((given) => given.value >= 0, {
    path: ['value'],
    message: 'must not be negative',
  });
}

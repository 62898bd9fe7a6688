import { AppError } from './app-error';
import { type Kind, toSi } from './ucum';

/** A value with its UCUM unit, as files and requests state it. */
export type Quantity = { value: number; unit: string };

/** "temperatureDifference" → "temperature difference". */
export function kindInWords(kind: Kind): string {
  return kind.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** A quantity already checked by its schema, in SI. */
export function inSi(given: Quantity, kind: Kind): number {
  const value = toSi(given.value, given.unit, kind);
  if (value === null) {
    throw new AppError('invalid-input', `"${given.unit}" is no unit of ${kindInWords(kind)}`);
  }
  return value;
}

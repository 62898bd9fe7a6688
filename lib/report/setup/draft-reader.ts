import type { Fault } from '@/lib/contract/app-error';
import type { QuantityDraft } from './quantity-draft';

const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;
/** `1,000` may be one or one thousand: nobody but the writer knows. */
const PERHAPS_THOUSANDS = /^[+-]?[1-9]\d{0,2},\d{3}$/;
const PER_CENT = 100;
/** 33.3 % is 0.333, not 0.33299999999999996. */
const SHARE_DIGITS = 14;

/** Reads what was typed into a form, and gathers what cannot be read. `undefined` leaves a member out of the document. */
export class DraftReader {
  readonly faults: Fault[] = [];

  fault(field: string, message: string): undefined {
    this.faults.push({ field, message });
    return undefined;
  }

  number(field: string, typed: string, isRequired = false): number | undefined {
    const written = typed.trim().replace('−', '-');
    if (written === '') return isRequired ? this.fault(field, 'is required') : undefined;
    if (PERHAPS_THOUSANDS.test(written)) {
      return this.fault(
        field,
        `may be read two ways; write ${written.replace(',', '')} or ${written.replace(',', '.')}`,
      );
    }
    const plain = written.replace(',', '.');
    if (NUMBER.test(plain)) return Number(plain);
    return this.fault(field, 'write a plain number, such as 12.5');
  }

  percent(field: string, typed: string, isRequired = false): number | undefined {
    const value = this.number(field, typed, isRequired);
    if (value === undefined) return undefined;
    if (value >= 0 && value <= PER_CENT) return Number((value / PER_CENT).toPrecision(SHARE_DIGITS));
    return this.fault(field, 'must be between 0 and 100 %');
  }

  quantity(
    field: string,
    typed: QuantityDraft,
    isRequired = false,
  ): { value: number; unit: string } | undefined {
    const value = this.number(field, typed.value, isRequired);
    return value === undefined ? undefined : { value, unit: typed.unit };
  }

  /** Numbers one after another, kept apart by blanks or semicolons. */
  numbers(field: string, typed: string, isRequired = false): number[] | undefined {
    const written = typed.split(/[\s;]+/).filter((part) => part !== '');
    if (written.length === 0) return isRequired ? this.fault(field, 'is required') : undefined;
    const values = written.map((part, i) => this.number(`${field}[${i}]`, part));
    return values.every((value) => value !== undefined) ? values : undefined;
  }

  positive(
    field: string,
    typed: QuantityDraft,
    isRequired = false,
  ): { value: number; unit: string } | undefined {
    const given = this.quantity(field, typed, isRequired);
    if (given !== undefined && !(given.value > 0)) return this.fault(field, 'must be greater than 0');
    return given;
  }

  text(field: string, typed: string, isRequired = false): string | undefined {
    const written = typed.trim();
    if (written !== '') return written;
    return isRequired ? this.fault(field, 'is required') : undefined;
  }
}

/** Undefined where every member is. */
export function orNothing<T extends Record<string, unknown>>(members: T): T | undefined {
  return Object.values(members).every((member) => member === undefined) ? undefined : members;
}

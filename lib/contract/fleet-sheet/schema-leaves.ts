import { z } from 'zod';
import { kindInWords } from '../quantity';
import { type Kind, SI_UNIT } from '../ucum';

/** What a field of a schema holds, as one cell can state it. */
export type LeafKind =
  | { by: 'text' }
  | { by: 'choice'; words: readonly string[] }
  | { by: 'number'; isWhole: boolean; minimum: number | null; maximum: number | null }
  | { by: 'yes-no' }
  | { by: 'time' }
  | { by: 'day' }
  /** `orShare`: also a plain number from 0 to 1, a share of the reading. */
  | { by: 'quantity'; kinds: Kind[]; orShare: boolean }
  /** Money or carbon dioxide per unit of energy: `{ amount, per }`, `{ kg, per }`. */
  | { by: 'priced'; what: 'amount' | 'kg' };

export type Leaf = { path: string; kind: LeafKind; isRequired: boolean; description: string | null };

type Place = { path: string; isRequired: boolean; description: string | null };

/**
 * Every field of a schema that holds one value, in its order. Quantities and prices are one value. A list of things told
 * apart by `kind` (and `stream`) is walked as if each had a name: `limits.pressure-drop.hot.above`; a tuple by number:
 * `viscosities.0.value`; any other list as `table[]`.
 */
export function schemaLeaves(schema: z.ZodType): Leaf[] {
  const seen = new Set<string>();
  return walk(schema, { path: '', isRequired: true, description: null }).filter(
    ({ path }) => !seen.has(path) && seen.add(path),
  );
}

function walk(schema: z.ZodType, place: Place): Leaf[] {
  const here = { ...place, description: z.globalRegistry.get(schema)?.description ?? place.description };
  if (schema instanceof z.ZodOptional) {
    return walk(schema.unwrap() as z.ZodType, {
      ...place,
      isRequired: false,
      description: place.description ?? here.description,
    });
  }
  const kind = leafKind(schema);
  if (kind !== null)
    return [{ ...place, description: place.description ?? ownWords(here.description), kind }];
  if (schema instanceof z.ZodObject) return walkObject(schema, place);
  if (schema instanceof z.ZodTuple) {
    const items = schema.def.items as z.ZodType[];
    return items.flatMap((item, i) => walk(item, under(place, String(i))));
  }
  if (schema instanceof z.ZodArray) return walkList(schema.element as z.ZodType, place);
  if (schema instanceof z.ZodUnion) {
    // Of several shapes none is the one that must be there.
    return (schema.options as z.ZodType[]).flatMap((option) => walk(option, { ...place, isRequired: false }));
  }
  throw new RangeError(`no leaf and no branch at ${place.path}`);
}

function walkObject(schema: z.ZodObject, place: Place): Leaf[] {
  return Object.entries(schema.shape).flatMap(([key, field]) => walk(field as z.ZodType, under(place, key)));
}

function walkList(element: z.ZodType, place: Place): Leaf[] {
  if (!(element instanceof z.ZodDiscriminatedUnion))
    return walk(element, { ...place, path: `${place.path}[]` });
  return (element.options as z.ZodObject[]).flatMap((option) => {
    const { kind, stream, ...rest } = option.shape as Record<string, z.ZodType>;
    const named = under({ ...place, isRequired: false }, String((kind as z.ZodLiteral).value));
    const streams = stream === undefined ? [named] : ['hot', 'cold'].map((side) => under(named, side));
    return streams.flatMap((at) =>
      Object.entries(rest).flatMap(([key, field]) => walk(field, under(at, key))),
    );
  });
}

function under(place: Place, key: string): Place {
  return { ...place, path: place.path === '' ? key : `${place.path}.${key}`, description: null };
}

function leafKind(schema: z.ZodType): LeafKind | null {
  if (schema instanceof z.ZodEnum) return { by: 'choice', words: schema.options.map(String) };
  if (schema instanceof z.ZodBoolean) return { by: 'yes-no' };
  if (schema instanceof z.ZodISODateTime) return { by: 'time' };
  if (schema instanceof z.ZodISODate) return { by: 'day' };
  if (schema instanceof z.ZodString) return { by: 'text' };
  if (schema instanceof z.ZodNumber) return numberKind(schema);
  if (schema instanceof z.ZodUnion) return quantityOrShare(schema.options as z.ZodType[]);
  return schema instanceof z.ZodObject ? pairKind(schema) : null;
}

function numberKind(schema: z.ZodNumber): LeafKind {
  const bound = (value: number | null) => (value !== null && Math.abs(value) < 2 ** 50 ? value : null);
  return {
    by: 'number',
    isWhole: schema.format === 'safeint',
    minimum: bound(schema.minValue),
    maximum: bound(schema.maxValue),
  };
}

function quantityOrShare(options: z.ZodType[]): LeafKind | null {
  const kinds = options.map(leafKind);
  const measured = kinds.find((kind) => kind?.by === 'quantity');
  const isShared = kinds.length === 2 && kinds.some((kind) => kind?.by === 'number');
  return measured?.by === 'quantity' && isShared ? { ...measured, orShare: true } : null;
}

function pairKind(schema: z.ZodObject): LeafKind | null {
  const keys = Object.keys(schema.shape).join();
  if (keys === 'value,unit') return { by: 'quantity', kinds: kindsOf(schema), orShare: false };
  if (keys === 'amount,per') return { by: 'priced', what: 'amount' };
  return keys === 'kg,per' ? { by: 'priced', what: 'kg' } : null;
}

const KIND_BY_WORDS = new Map((Object.keys(SI_UNIT) as Kind[]).map((kind) => [kindInWords(kind), kind]));
const QUANTITY = /^Quantity: (.*), unit as UCUM code$/;

/** The kinds that `quantity(…)` names in its description, which a field's own may stand before. */
function kindsOf(schema: z.core.$ZodType): Kind[] {
  const words = QUANTITY.exec(z.globalRegistry.get(schema)?.description ?? '')?.[1]?.split(' or ');
  if (words !== undefined) return words.map((word) => KIND_BY_WORDS.get(word)!);
  const { parent } = schema._zod;
  if (parent === undefined) throw new RangeError('a quantity that names no kind');
  return kindsOf(parent);
}

function ownWords(description: string | null): string | null {
  return description === null || QUANTITY.test(description) ? null : description;
}

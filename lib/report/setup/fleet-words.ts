import { countOf } from '@/lib/report/format/words';

type Taken = { added: string[]; updated: string[]; unchanged: string[]; isAnalysed: boolean };

/** "3 units added, 1 unit updated, 2 units unchanged." */
export function takenInWords({ added, updated, unchanged, isAnalysed }: Taken): string {
  const parts = [
    [added, 'added'],
    [updated, 'updated'],
    [unchanged, 'unchanged'],
  ] as const;
  const said = parts
    .filter(([tags]) => tags.length > 0)
    .map(([tags, word]) => `${countOf(tags.length, 'unit')} ${word}`);
  const late = isAnalysed
    ? ''
    : ' Their results could not be worked out yet; the log of the server says why.';
  return `${said.join(', ')}.${late}`;
}

const celsius = (value: number) => ({ value, unit: 'Cel' });

/** The smallest fleet file that can be registered. */
export const FLEET_FILE_EXAMPLE = `${JSON.stringify(
  {
    site: { name: 'Example works', timeZone: 'Europe/Lisbon', currency: 'EUR' },
    units: [
      {
        tag: 'E-101',
        service: 'Product cooler',
        arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2 },
        area: { value: 42, unit: 'm2' },
        hot: { fluid: 'water' },
        cold: { fluid: 'water' },
        design: {
          hotIn: celsius(65),
          hotOut: celsius(45),
          coldIn: celsius(25),
          coldOut: celsius(35),
          hotFlow: { value: 60, unit: 'm3/h' },
          coldFlow: { value: 118, unit: 'm3/h' },
        },
        limits: [{ kind: 'fouling-resistance', value: { value: 0.0002, unit: 'm2.K/W' } }],
      },
    ],
  },
  null,
  2,
)}\n`;

import { describe, expect, it } from 'vitest';
import type { PropertyRows } from '@/lib/contract/property-rows';
import { readPropertyRows } from '@/lib/ingest/read-property-rows';
import { readPropertyRows as readPasted } from '@/lib/work/read-property-rows';

const row = (
  temperature: string,
  specificHeat: string,
  rest: Partial<PropertyRows['rows'][number]> = {},
) => ({
  temperature,
  specificHeat,
  density: '',
  viscosity: '',
  conductivity: '',
  ...rest,
});

describe('rows of fluid properties as pasted', () => {
  it.each([
    ['tabs, as from a spreadsheet', '2\t3.881\t1025.3\n20\t3.885\t1023.1\n'],
    ['tabs and decimal commas', '2\t3,881\t1025,3\r\n20\t3,885\t1023,1\r\n'],
    ['semicolons and decimal commas', '2;3,881;1025,3\n20;3,885;1023,1'],
    ['semicolons and decimal points', '2;3.881;1025.3\n20;3.885;1023.1'],
    ['commas', '2,3.881,1025.3\n20,3.885,1023.1'],
    ['commas, blank lines and quotes', '\n"2", "3.881", "1025.3"\n\n20, 3.885, 1023.1\n\n'],
  ])('are read between %s', (_how, text) => {
    expect(readPropertyRows(text)).toEqual({
      rows: [row('2', '3.881', { density: '1025.3' }), row('20', '3.885', { density: '1023.1' })],
      units: {},
      skipped: [],
      faults: [],
    });
  });

  it('take all five columns in order, and minus signs as typesetters write them', () => {
    const { rows, faults } = readPropertyRows('−10;3,5;1100;12,5;0,4\n0;3,6;1095;8;0,41');
    expect(faults).toEqual([]);
    expect(rows[0]).toEqual(row('-10', '3.5', { density: '1100', viscosity: '12.5', conductivity: '0.4' }));
  });

  it('take names and units from a header, in any order of the columns', () => {
    const text = [
      'Density [kg/m³]\tT / °C\tcp (kJ/(kg·K))\tPrandtl\tλ, W/mK\tViscosity [mPa s]',
      '1025.3\t2\t3.881\t23\t0.538\t3.2',
    ].join('\n');
    expect(readPropertyRows(text)).toEqual({
      rows: [row('2', '3.881', { density: '1025.3', viscosity: '3.2', conductivity: '0.538' })],
      units: {
        temperature: 'Cel',
        specificHeat: 'kJ/(kg.K)',
        density: 'kg/m3',
        viscosity: 'mPa.s',
        conductivity: 'W/(m.K)',
      },
      skipped: ['Prandtl'],
      faults: [],
    });
  });

  it('take units from a row of their own, and a header that names nothing by its order', () => {
    const byRow = readPropertyRows('Temperature;Specific heat\n°F;Btu/(lb.°F)\n50;0,93');
    expect(byRow.faults).toEqual([
      'Header, Specific heat: “Btu/(lb.°F)” is no unit of specific heat; write for example J/(kg.K)',
    ]);
    const good = readPropertyRows('Temperature;Specific heat\n°F;kJ/kg·K\n50;3,9');
    expect([good.units, good.rows]).toEqual([
      { temperature: '[degF]', specificHeat: 'kJ/(kg.K)' },
      [row('50', '3.9')],
    ]);
    const unknown = readPropertyRows('Temperatur;Wärmekapazität\n50;3,9');
    expect([unknown.faults, unknown.rows]).toEqual([[], [row('50', '3.9')]]);
  });
});

describe('what cannot be read is told by row and column', () => {
  it.each([
    ['words', 'T;cp\n20;3,9\n40;abc\n', 'Row 3, specific heat: “abc” is no plain number'],
    [
      'a cell of a column that the first row lacks',
      '20\t3.9\n30\t3.9\tx',
      'Row 2, density: “x” is no plain number',
    ],
    ['a cell too many', 'T;cp\n20;3,9\n30;3,9;998', 'Row 3: has more cells than the header has columns'],
    ['an empty cell that is needed', '20;3,9\n;3,8', 'Row 2, temperature: is empty'],
    [
      'a thousand between points',
      '20\t3.9\t1,025\n30\t3.9\t998.2',
      'Row 1, density: “1,025” is no plain number',
    ],
    ['a unit in a cell', '20;3,9 kJ\n30;3,9', 'Row 1, specific heat: “3,9 kJ” is no plain number'],
    [
      'a kinematic viscosity',
      'T;cp;viscosity [mm2/s]\n20;3,9;1',
      'Header, viscosity: “mm2/s” is no unit of viscosity; write for example Pa.s',
    ],
    [
      'an open quote in the first row',
      '"T;cp\n20;3,9',
      'Row 1: a quote is not closed, or text follows it; remove it',
    ],
    ['an open quote', '20;3,9\n30;"3,8', 'Row 2: a quote is not closed, or text follows it; remove it'],
    [
      'one column',
      '20 3.9\n30 3.9',
      'There is no column of specific heat; temperature and specific heat are needed',
    ],
    [
      'a header without what is needed',
      'Density;Viscosity\n1000;1',
      'There is no column of temperature and of specific heat; temperature and specific heat are needed',
    ],
    ['nothing', '  \n ', 'Nothing was pasted: copy the rows of the table with their columns'],
  ])('%s', (_what, text, fault) => {
    expect(readPropertyRows(text).faults).toEqual([fault]);
  });

  it('in a few lines where there is much', () => {
    const { faults } = readPropertyRows(Array.from({ length: 30 }, (_, i) => `${i};x`).join('\n'));
    expect(faults).toHaveLength(9);
    expect(faults.at(-1)).toBe('and 22 more');
  });

  it('and a table longer than a form should hold is refused, as is an endless text', () => {
    const long = Array.from({ length: 201 }, (_, i) => `${i};4`).join('\n');
    expect(readPropertyRows(long).faults).toEqual([
      'There are 201 rows; 200 are enough: the table is linear between them',
    ]);
    expect(readPasted('1;'.repeat(100_000)).faults[0]).toContain('more than 100000 characters');
    expect(readPasted('20;4').rows).toHaveLength(1);
    expect(readPasted(undefined).rows).toEqual([]);
  });
});

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { type Kind, parametersOf, READINGS } from './kernel-data';
import type { States } from './kernel-ours';

/** What every program is given to work on. */
export type KernelInput = {
  kind: Kind;
  exchanger: Exchanger;
  years: readonly ReadingColumns[];
  states: States;
};

/** Writes it to a folder, so that a program outside can read it. */
export async function writeInput(
  folder: string,
  { kind, exchanger, years, states }: KernelInput,
): Promise<void> {
  const parameters = parametersOf(exchanger, kind, years.length);
  const { minimum, maximum, density, specificHeat, viscosity, conductivity } = parameters.hot;
  const tables = [density, specificHeat, viscosity, conductivity].flatMap(({ intervals, coefficients }) => [
    intervals,
    ...coefficients,
  ]);
  const columns = (['time', ...BALANCE_SENSORS] as const).flatMap((name) => years.map((year) => year[name]));
  await writeFile(join(folder, 'input.json'), JSON.stringify(parameters));
  await writeFile(join(folder, 'input.bin'), bytesOf(columns));
  await writeFile(
    join(folder, 'states.bin'),
    bytesOf([[states[0]!.length, kind === 'counter' ? 0 : 1], ...states]),
  );
  await writeFile(join(folder, 'tables.bin'), bytesOf([[minimum, maximum], tables]));
}

/** The figures that a program outside wrote. */
export async function readFigures(folder: string, name: string): Promise<Float64Array> {
  const bytes = await readFile(join(folder, name));
  return new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}

/** The readings that all six sensors have and at which the unit runs, one column behind the other. */
export function soundStates(years: readonly ReadingColumns[]): States {
  const states = BALANCE_SENSORS.map(() => new Float64Array(years.length * READINGS));
  let count = 0;
  for (const year of years) {
    for (let i = 0; i < READINGS; i++) {
      // Comparisons with NaN are false.
      if (!(year.hotFlow[i]! > 10 && year.hotIn[i]! > year.coldOut[i]! && year.coldFlow[i]! > 10)) continue;
      BALANCE_SENSORS.forEach((sensor, place) => {
        states[place]![count] = year[sensor][i]!;
      });
      count++;
    }
  }
  return states.map((column) => column.slice(0, count));
}

function bytesOf(parts: readonly ArrayLike<number>[]): Buffer {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return Buffer.from(all.buffer);
}

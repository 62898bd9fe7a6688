import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { UnitKey } from './ranges';
import { type SimulatedUnit, simulateUnit } from './simulate-unit';

/**
 * A simulated unit, from the directory where it was simulated before. Simulating is slow and judging fast: with a cache the
 * trend alone is worked out again. A directory must be emptied when simulation or evaluation change.
 */
export function simulatedUnit(key: UnitKey, directory: string | null): SimulatedUnit {
  if (directory === null) return simulateUnit(key);
  const file = join(directory, `${key.set}-${key.scenario}-${key.seed}-${key.index}.v8`);
  if (existsSync(file)) return deserialize(readFileSync(file)) as SimulatedUnit;
  const unit = simulateUnit(key);
  mkdirSync(directory, { recursive: true });
  // Never a file half written, however the run ends.
  writeFileSync(`${file}.${process.pid}`, serialize(unit));
  renameSync(`${file}.${process.pid}`, file);
  return unit;
}

import { writeFileSync } from 'node:fs';
import { inProcesses } from './in-processes';
import { readOptions, unitKeys } from './options';
import { reportLines, reportText } from './report';

/**
 * Calibration bench of the projection: simulated fleets with known truth through the real pipeline, beside a spreadsheet's
 * straight line through the same readings.
 *
 * --set tune|held-out  --scenario NAME (repeatable)  --cycles N  --seed N  --cache DIR  --simulate-only  --json FILE
 */
async function main(): Promise<void> {
  const began = performance.now();
  const options = readOptions(process.argv.slice(2));
  const found = await inProcesses({ keys: unitKeys(options), ...options });
  const lines = reportLines(found);
  const seconds = (performance.now() - began) / 1000;
  const cycles = found.judgements.filter(({ shareOfLife }) => shareOfLife === 0.5).length;
  process.stdout.write(`${reportText(lines, found)}\n`);
  process.stdout.write(
    `Set ${options.set}, seed ${options.seed}: ${cycles} cycles in ${seconds.toFixed(0)} s.\n`,
  );
  if (options.json !== null)
    writeFileSync(options.json, JSON.stringify({ options, seconds, lines, ...found }));
}

await main();

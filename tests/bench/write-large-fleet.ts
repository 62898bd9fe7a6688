import { closeContext, openContext } from '@/lib/work/context';
import { copyFleet, makeLargeFleet } from './large-fleet';

// npx tsx tests/bench/write-large-fleet.ts DATABASE_URL UNITS [SHARE OF UNITS WITH TEN YEARS] [--copy-only]
const [databaseUrl, units, tenYears = '0.1'] = process.argv.slice(2);
if (databaseUrl === undefined || units === undefined)
  throw new Error('give a database and a number of units');
const asked = {
  units: Number(units),
  tenYears: Number(tenYears),
  say: (line: string) => void process.stderr.write(`${line}\n`),
};
if (process.argv.includes('--copy-only')) {
  const context = await openContext(databaseUrl);
  await copyFleet(context, asked);
  await closeContext(context);
} else await makeLargeFleet(databaseUrl, asked);

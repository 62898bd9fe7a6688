import { DEFAULT_DATABASE_URL } from '@/lib/store/database-path';
import { seedDemo } from './seed-demo';

const databaseUrl = process.env.DATABASE_URL ?? DEFAULT_DATABASE_URL;
const started = performance.now();
const { units, readings, cleanings, end } = await seedDemo(databaseUrl, {
  onProgress: (done, of, tag) => process.stderr.write(`\r${done}/${of} ${tag}  `),
});
const seconds = ((performance.now() - started) / 1000).toFixed(1);
process.stderr.write('\n');
console.log(
  `${units} units, ${readings} readings to ${new Date(end).toISOString()}, ${cleanings} cleanings: ${seconds} s`,
);

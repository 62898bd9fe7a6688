import { serve } from '@/lib/cli/serve';
import { seedDemo } from './seed-demo';

/** Fills an empty database with a demo fleet up to the current hour, builds the application over it and serves it. */
export async function runDemo(databaseUrl: string): Promise<number> {
  process.env.DATABASE_URL = databaseUrl;
  process.env.CLEANBY_ROOT ??= process.cwd();
  // The sign-in page offers the demonstration's accounts in one click, on this machine only.
  process.env.CLEANBY_DEMO = '1';

  const isTerminal = process.stderr.isTTY === true;
  const { units, readings, cleanings } = await seedDemo(databaseUrl, {
    onProgress: (done, of, tag) => {
      if (isTerminal) process.stderr.write(`\rMaking the demo fleet: ${done} of ${of} units (${tag})      `);
    },
  });
  process.stderr.write(
    `\nDemo fleet ready: ${units} units, ${readings} hourly readings, ${cleanings} recorded cleanings.\n`,
  );
  return serve(null);
}

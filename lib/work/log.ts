import pino from 'pino';

/** One JSON line per event on stderr: stdout belongs to answers. No transports: they are threads that bundling breaks. */
export const log = pino(
  { name: 'cleanby', level: process.env.CLEANBY_LOG_LEVEL ?? 'info' },
  pino.destination({ dest: 2, sync: true }),
);

import { createRequire } from 'node:module';
import type { ServedPlant } from './served-plant';

/** How an address answered many readers at once [ms]. */
export type Answers = { p50: number; p95: number; p99: number; perSecond: number };

/** What is used of autocannon, which brings no types. */
type Client = {
  on(event: 'response', act: (status: number, bytes: number, ms: number) => void): void;
};
type Autocannon = (options: {
  url: string;
  connections: number;
  duration: number;
  overallRate?: number;
  requests: { setupRequest(request: object): object }[];
  setupClient(client: Client): void;
}) => Promise<{ requests: { average: number }; non2xx: number; errors: number }>;

const autocannon = createRequire(import.meta.url)('autocannon') as Autocannon;
const SECONDS = 10;

/** How readers ask: `path` of the n-th request, and how many a second there are of them all; as fast as they can where left out. */
export type Asking = { path: (request: number) => string; readers: number; perSecond?: number };

/** Readers ask over and over for some seconds, each by a browser of their own; every answer must be one. */
export async function askedBy(plant: ServedPlant, { path, readers, perSecond }: Asking): Promise<Answers> {
  const times: number[] = [];
  let count = 0;
  const { requests, non2xx, errors } = await autocannon({
    url: plant.address,
    connections: readers,
    duration: SECONDS,
    ...(perSecond === undefined ? {} : { overallRate: perSecond }),
    requests: [
      {
        setupRequest: (given) => {
          const number = count++;
          // Two browsers never say quite the same: nobody is given what was made for another.
          const headers = { ...plant.person, 'user-agent': `Bench, reader ${number % readers}` };
          return { ...given, path: path(number), headers };
        },
      },
    ],
    setupClient: (client) => client.on('response', (_status, _bytes, ms) => void times.push(ms)),
  });
  if (non2xx > 0 || errors > 0) throw new Error(`${path(0)}: ${non2xx} refusals and ${errors} errors`);
  const sorted = Float64Array.from(times).sort();
  const at = (share: number) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)]!;
  return { p50: at(0.5), p95: at(0.95), p99: at(0.99), perSecond: requests.average };
}

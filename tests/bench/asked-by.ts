import { createRequire } from 'node:module';
import type { ServedPlant } from './served-plant';

/** How an address answered many readers at once [ms]. */
export type Answers = { p50: number; p95: number; p99: number; perSecond: number };

/** What is used of autocannon, which brings no types. */
type Client = {
  on(event: 'response', act: (client: unknown, status: number, bytes: number, ms: number) => void): void;
};
type Autocannon = (options: {
  url: string;
  connections: number;
  duration: number;
  headers: Record<string, string>;
  setupClient(client: Client): void;
}) => Promise<{ requests: { average: number }; non2xx: number; errors: number }>;

const autocannon = createRequire(import.meta.url)('autocannon') as Autocannon;
const SECONDS = 10;

/** Asks for an address again and again over so many connections; every answer must be one. */
export async function askedBy(plant: ServedPlant, path: string, readers: number): Promise<Answers> {
  const times: number[] = [];
  const { requests, non2xx, errors } = await autocannon({
    url: plant.address + path,
    connections: readers,
    duration: SECONDS,
    headers: plant.person,
    setupClient: (client) => client.on('response', (_client, _status, _bytes, ms) => void times.push(ms)),
  });
  if (non2xx > 0 || errors > 0) throw new Error(`${path}: ${non2xx} refusals and ${errors} errors`);
  const sorted = Float64Array.from(times).sort();
  const at = (share: number) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)]!;
  return { p50: at(0.5), p95: at(0.95), p99: at(0.99), perSecond: requests.average };
}

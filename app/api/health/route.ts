import { serverHealth } from '@/lib/work/server-health';

// Never answered from what a build found.
export const dynamic = 'force-dynamic';

/** For monitors, without an account: whether the server can work. Says nothing of the plant. */
export async function GET(): Promise<Response> {
  const health = await serverHealth();
  return Response.json(health, {
    status: health.status === 'ok' ? 200 : 503,
    headers: { 'Cache-Control': 'no-store' },
  });
}

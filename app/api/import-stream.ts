import type { ImportLine } from '@/lib/contract/api/import-lines';
import type { ProblemDocument } from '@/lib/contract/api/problem';
import type { Received } from '@/lib/work/take-upload';
import type { Refused } from './problem';
import { problemOf } from './respond';

/** Whether progress is asked for, line by line. */
export function wantsLines(request: Request): boolean {
  return (request.headers.get('accept') ?? '').toLowerCase().includes('application/x-ndjson');
}

/**
 * Takes a received upload in and tells how far it has got, a JSON document per line; the last is the report or the problem. A caller
 * who goes away cancels it.
 */
export function importLines(received: Received, asked: Refused): Response {
  const left = new AbortController();
  const signal = AbortSignal.any([left.signal, asked.request.signal]);
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async start(controller) {
      const say = (line: ImportLine) => {
        if (!signal.aborted) controller.enqueue(encoder.encode(`${JSON.stringify(line)}\n`));
      };
      try {
        say({ report: await received.take({ signal, onProgress: (progress) => say({ progress }) }) });
      } catch (error) {
        say({ problem: (await problemOf(error, asked).json()) as ProblemDocument });
      }
      if (!left.signal.aborted) controller.close();
    },
    cancel: () => left.abort(),
  });
  return new Response(body, {
    headers: {
      'Cache-Control': 'no-store',
      'Content-Type': 'application/x-ndjson',
      // A server in front must hand each line on as it comes.
      'X-Accel-Buffering': 'no',
    },
  });
}

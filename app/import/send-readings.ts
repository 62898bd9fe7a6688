import { type Answer, NOT_REACHED, problemOf } from '@/app/ui/api/problem';
import type { TimeFormat } from '@/lib/contract/time-format';
import type { UsedMapping } from './mapping/used-mapping';

/** `timeFormat` is empty where times are read as the file, or its mapping, shows. */
export type ReadingOptions = {
  name: string;
  timeZone: string;
  timeFormat: TimeFormat | '';
  used: UsedMapping;
};

/** Address of an upload: everything about the file but its bytes. A saved mapping goes by its name. */
export function uploadPath(
  path: string,
  { name, timeZone, timeFormat, used }: ReadingOptions,
  flags: Record<string, string> = {},
): string {
  const params = new URLSearchParams({ name, ...flags });
  if (timeZone !== '') params.set('timeZone', timeZone);
  if (timeFormat !== '') params.set('timeFormat', timeFormat);
  if (used.saved !== null) params.set('mappingName', used.saved.name);
  else if (used.mapping !== null) params.set('mapping', JSON.stringify(used.mapping));
  return `${path}?${params}`;
}

type Sending = { signal: AbortSignal; onProgress?: (sent: number) => void };

/** Sends a file as it is; XMLHttpRequest, because fetch tells nothing of how much was sent. An abort throws. */
export function sendFile<Document>(path: string, file: Blob, sending: Sending): Promise<Answer<Document>> {
  const { signal, onProgress } = sending;
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    const abort = () => request.abort();
    const done = (answer: Answer<Document>) => {
      signal.removeEventListener('abort', abort);
      resolve(answer);
    };
    request.open('POST', path);
    request.responseType = 'json';
    request.upload.onprogress = (event) => onProgress?.(event.loaded);
    request.onload = () => {
      const { status, response } = request;
      const isGood = status >= 200 && status < 300 && response !== null;
      done(
        isGood
          ? { document: response as Document, problem: null }
          : { document: null, problem: problemOf(status, response) },
      );
    };
    request.onerror = () => done({ document: null, problem: NOT_REACHED });
    request.onabort = () => reject(new DOMException('cancelled', 'AbortError'));
    signal.addEventListener('abort', abort);
    request.send(file);
  });
}

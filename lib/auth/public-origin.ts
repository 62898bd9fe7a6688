import { AppError } from '@/lib/contract/app-error';

/**
 * Where people reach this server, such as https://cleanby.plant.example, as CLEANBY_ORIGIN states it: links that the
 * command line gives begin with it, and an identity provider sends people back to it.
 *
 * @throws AppError 'invalid-input' for what is no origin
 */
export function publicOrigin(): URL | null {
  const stated = process.env.CLEANBY_ORIGIN ?? '';
  if (stated === '') return null;
  const url = URL.canParse(stated) ? new URL(stated) : null;
  if (url !== null && /^https?:$/.test(url.protocol) && url.href === `${url.origin}/`) return url;
  throw new AppError('invalid-input', `CLEANBY_ORIGIN is "${stated}", which is no address of a server`, [
    { field: 'CLEANBY_ORIGIN', message: 'state scheme and host only, such as https://cleanby.plant.example' },
  ]);
}

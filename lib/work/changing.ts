import { type Making, makeChange } from '@/lib/store/entities/change';
import { actingName, recordedActor } from './acting-name';
import type { Context } from './context';

/** Makes a change as whoever is at work, or as whom a program states; written down with it, or not made at all. */
export function changing<T>(
  context: Context,
  stated: string | null | undefined,
  act: (making: Making) => Promise<T>,
): Promise<T> {
  const by = actingName(context, stated);
  const author = { actor: recordedActor(context, by), by, at: context.now() };
  return makeChange(context.store.entities, author, act);
}

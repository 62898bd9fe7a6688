import { LOCAL_ACTOR } from '@/lib/contract/actor';
import type { Author } from '@/lib/store/entities/change';

/** Somebody at the command line who makes a change under a name. */
export function authorOf({ by, at }: { by: string; at: number }): Author {
  return { actor: LOCAL_ACTOR, by, at };
}

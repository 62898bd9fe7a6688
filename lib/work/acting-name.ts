import type { Actor } from '@/lib/contract/actor';

/** The name something is done under: a person's own; a program or the command line may state for whom it acts. */
export function actingName({ actor }: { actor: Actor }, stated?: string | null): string {
  return actor.kind === 'person' ? actor.name : stated?.trim() || actor.name;
}

/** Whom the record names: for whom somebody acts, and who that is. */
export function recordedActor({ actor }: { actor: Actor }, by: string): Actor {
  return by === actor.name ? actor : { ...actor, name: `${by} (${actor.name})` };
}

import type { UnitDraft } from './unit-draft';

/**
 * What one choice usually brings with it: a plate unit has plate passes and is stated by its plates, a shell-and-tube one
 * has passes. Only at the moment of the choice: a person may choose otherwise afterwards.
 */
export function following(draft: UnitDraft, changed: string): UnitDraft {
  if (changed !== 'construction') return draft;
  switch (draft.construction) {
    case 'plate':
      return { ...draft, arrangement: { ...draft.arrangement, kind: 'plate' }, areaBy: 'plates' };
    case 'shell-and-tube':
      return { ...draft, arrangement: { ...draft.arrangement, kind: 'shell-and-tube' }, areaBy: 'area' };
    case 'air-cooled':
      return { ...draft, arrangement: { ...draft.arrangement, kind: 'crossflow' }, areaBy: 'area' };
    case 'double-pipe':
      return { ...draft, arrangement: { ...draft.arrangement, kind: 'counter-current' }, areaBy: 'area' };
    default:
      return draft;
  }
}

const TUBULAR: readonly string[] = ['shell-and-tube', 'air-cooled', 'crossflow'];

/** Whether the form asks which stream is in the tubes: it decides the film exponents that are assumed. */
export function asksTubeSide(draft: UnitDraft): boolean {
  const isTubular = TUBULAR.includes(draft.construction) || TUBULAR.includes(draft.arrangement.kind);
  return isTubular && draft.construction !== 'plate';
}

import type { PlanDraft } from '@/lib/report/plan/draft-plan';
import type { DraftPrice } from '@/lib/report/plan/draft-price';
import type { PlanDesk } from '@/lib/report/plan/plan-desk';
import type { PlanView } from '@/lib/report/plan/plan-view';
import type { Dragging } from './use-drag';
import type { Moves } from './use-moves';
import type { DraftBoard } from './use-plan-draft';

/** Everything the parts of the board share; `shown` is the draft as it would be if what is in the hand were dropped. */
export type Stage = {
  view: PlanView;
  desk: PlanDesk;
  board: DraftBoard;
  moves: Moves;
  dragging: Dragging;
  /** `clashing`: the cleanings of each unit to be marked. */
  shown: { draft: PlanDraft; price: DraftPrice; clashing: number[][] };
  /** Whether a click on any row adds a cleaning there. */
  adding: { isOn: boolean; set: (isOn: boolean) => void };
};

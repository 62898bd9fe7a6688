import { Notice } from '@/app/ui/notice/notice';
import type { Stage } from './stage';

/** What became of changes that were made before the page was left. */
export function MemoryNotice({ stage: { board } }: { stage: Stage }) {
  if (board.memory === 'restored' && board.past.length > 0)
    return (
      <Notice>
        <p>Your changes are as you left them; Undo takes them back one by one.</p>
      </Notice>
    );
  if (board.memory !== 'outdated') return null;
  return (
    <Notice title="Your changes were dropped">
      <p>Readings, prices or the calendar have changed since you made them: the plan begins anew.</p>
    </Notice>
  );
}

import type { UndoPreview } from '@/lib/contract/replaced-readings';
import { countOf } from '../format/words';

/** What undoing an import would do, before it is done. */
export function undoInWords({ removed, restored, kept }: UndoPreview): string {
  const gone = `${countOf(removed, 'reading')} that it brought will be removed, ${restored} will have the earlier values again`;
  const stays =
    kept === 0
      ? ''
      : ` ${countOf(kept, 'reading')} that a later import has changed since will stay as they are.`;
  return `${gone}.${stays} The results of the units follow, and the record says who undid it.`;
}

import { type Moved, type MoveRequest, moveDatabase } from '@/lib/store/move/move-database';

/**
 * Moves a plant's database to another kind of database, or to another server: copied, and verified row by row. The one it
 * comes from stays as it is.
 *
 * @throws AppError 'conflict' where the other one holds data already
 */
export function move(request: MoveRequest): Promise<Moved> {
  return moveDatabase(request);
}

import { unitSchema } from '../fleet-file';
import { schemaLeaves } from './schema-leaves';

/** Every field of a unit. */
export const UNIT_LEAVES = schemaLeaves(unitSchema);

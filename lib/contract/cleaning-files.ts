import { z } from 'zod';
import { withoutUnseen } from './kept-file-name';
import { who } from './withdrawal';

/** What is kept with a cleaning, told by the first bytes of a file. */
export const KEPT_FILE_TYPES = ['image/jpeg', 'image/png', 'image/webp', 'application/pdf'] as const;
export type KeptFileType = (typeof KEPT_FILE_TYPES)[number];

/** Largest file [bytes], and most files of one cleaning [-]. */
export const LARGEST_KEPT_FILE = 10 * 2 ** 20;
export const MOST_KEPT_FILES = 10;

/** Which cleaning a file sent as the body belongs to, what it is called, and who adds it. */
export const cleaningFileQuerySchema = z
  .object({
    cleaning: z.coerce.number<string>().int().min(1),
    name: z.string().overwrite(withoutUnseen).trim().min(1, 'give the file a name').max(120),
    by: who,
  })
  .meta({ id: 'CleaningFileQuery' });

/** A file kept with a cleaning, without its content. */
export const cleaningFileSchema = z
  .object({
    id: z.int(),
    cleaning: z.int(),
    name: z.string(),
    type: z.enum(KEPT_FILE_TYPES),
    bytes: z.int(),
    addedBy: z.string().nullable(),
    addedAt: z.string(),
  })
  .meta({ id: 'CleaningFile' });

export type CleaningFileQuery = z.infer<typeof cleaningFileQuerySchema>;
export type CleaningFile = z.infer<typeof cleaningFileSchema>;

/** The same as it is kept; `addedAt` in ms since 1970. */
export type CleaningFileRecord = {
  id: number;
  unitId: number;
  cleaningId: number;
  name: string;
  type: KeptFileType;
  bytes: number;
  addedBy: string | null;
  addedAt: number;
};

import { readFile } from 'node:fs/promises';
import { AppError } from '@/lib/contract/app-error';

/**
 * The JSON document in a file.
 *
 * @throws AppError 'not-readable' with the file's name and, for broken JSON, where it breaks
 */
export async function readJson(path: string): Promise<unknown> {
  let text: string;
  try {
    text = (await readFile(path, 'utf8')).replace(/^\uFEFF/, '');
  } catch (error) {
    throw new AppError('not-readable', `${path} cannot be read: ${(error as Error).message}`);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new AppError('not-readable', `${path} is not JSON: ${(error as Error).message}`);
  }
}

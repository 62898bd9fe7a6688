import type { Dirent } from 'node:fs';
import { readdir, realpath, stat } from 'node:fs/promises';
import { join, sep } from 'node:path';

/** A file of a watched folder as it stands at one look. */
export type FolderFile = {
  name: string;
  /** Where its bytes are: that of a link's target. */
  path: string;
  bytes: number;
  /** [ms] */
  modifiedAt: number;
};

export type Listing = {
  files: FolderFile[];
  /** Links that lead out of the folder: they are not followed. */
  leadingOut: string[];
};

/** Names under which programs write a file that is not complete yet, and what systems leave lying about. */
const PARTIAL = /^[.~]|~$|\.(tmp|temp|part|partial|crdownload|filepart|swp|lock)$/i;

/**
 * The files of a folder, without those of its subfolders.
 *
 * @throws the system's error where the folder cannot be read
 */
export async function listFolder(folder: string): Promise<Listing> {
  const root = await realpath(folder);
  const entries = await readdir(folder, { withFileTypes: true });
  const listing: Listing = { files: [], leadingOut: [] };
  for (const entry of entries.sort((a, b) => a.name.localeCompare(b.name, 'en'))) {
    if (PARTIAL.test(entry.name)) continue;
    const path = await pathOf(root, entry);
    if (path === 'leads-out') listing.leadingOut.push(entry.name);
    else if (path !== null) listing.files.push(...(await fileAt(entry.name, path)));
  }
  return listing;
}

/** Where an entry's bytes are; null for what is no file. */
async function pathOf(root: string, entry: Dirent): Promise<string | 'leads-out' | null> {
  if (entry.isFile()) return join(root, entry.name);
  if (!entry.isSymbolicLink()) return null;
  // A link whose target is gone is none.
  const target = await realpath(join(root, entry.name)).catch(() => null);
  if (target === null) return null;
  return target.startsWith(root + sep) ? target : 'leads-out';
}

/** A file may be gone again between the listing and this look. */
async function fileAt(name: string, path: string): Promise<FolderFile[]> {
  const status = await stat(path).catch(() => null);
  if (status === null || !status.isFile()) return [];
  return [{ name, path, bytes: status.size, modifiedAt: Math.floor(status.mtimeMs) }];
}

import type { KeptFileType } from './cleaning-files';

/** Ends of names by type; the first is added where a name has none of them. */
const ENDINGS: Record<KeptFileType, readonly string[]> = {
  'image/jpeg': ['jpg', 'jpeg'],
  'image/png': ['png'],
  'image/webp': ['webp'],
  'application/pdf': ['pdf'],
};

/** Control characters, and those that show nothing but turn or hide what stands beside them. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

export function withoutUnseen(name: string): string {
  return name.replace(UNSEEN, '');
}

/**
 * What a kept file is called where it is saved again: the name it came under without folders and without characters nobody sees, and
 * with the ending of what it is, for that is what a machine opens it by.
 */
export function keptFileName(name: string, type: KeptFileType): string {
  const last = withoutUnseen(name).split(/[/\\]/).at(-1)!;
  const shown = last.replace(/^[.\s]+/, '').trim();
  const ending = shown.split('.').at(-1)!.toLowerCase();
  const named = shown === '' ? 'file' : shown;
  return shown.includes('.') && ENDINGS[type].includes(ending) ? named : `${named}.${ENDINGS[type][0]}`;
}

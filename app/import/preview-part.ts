/** The beginning of a file that is looked at [bytes]; the server takes no more for a preview. */
const PREVIEW_BYTES = 2 ** 21;
/** A workbook is looked at as a whole: what is in it stands at its end. */
const WORKBOOK_BYTES = 2 ** 25;

/** What of a file is sent to be looked at, and whether that is only its beginning. */
export async function previewPart(file: File): Promise<{ part: Blob; isCut: boolean }> {
  const most = (await isWorkbook(file)) ? WORKBOOK_BYTES : PREVIEW_BYTES;
  return { part: file.slice(0, most), isCut: file.size > most };
}

/** A workbook is a zip archive, which begins with these four bytes. */
async function isWorkbook(file: File): Promise<boolean> {
  const [a, b, c, d] = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  return a === 0x50 && b === 0x4b && c === 3 && d === 4;
}

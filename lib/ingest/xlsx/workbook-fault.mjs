/** Why a workbook is not read: a code of AppError and a message with its remedy. */
export class WorkbookFault extends Error {
  constructor(code, message) {
    super(message);
    this.name = 'WorkbookFault';
    this.code = code;
  }
}

export function damaged() {
  return new WorkbookFault(
    'not-readable',
    'The workbook is damaged or cut off; save it again and send it whole',
  );
}

/** @param {string} what is too much, such as "unpacks to more than 96 MiB" */
export function tooLarge(what) {
  return new WorkbookFault('too-large', `The workbook ${what}; save the sheet as CSV, or send it in parts`);
}

/** Why migrations were not applied; nothing of the database was changed. */
export type MigrationRefusal = 'other-text' | 'newer' | 'failed' | 'references' | 'server';

/** A database whose schema this version does not know or could not bring up to date. */
export class MigrationError extends Error {
  readonly refusal: MigrationRefusal;

  constructor(refusal: MigrationRefusal, message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'MigrationError';
    this.refusal = refusal;
  }
}

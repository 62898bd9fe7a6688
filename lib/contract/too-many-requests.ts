import { AppError } from './app-error';

/** Somebody asks more often than is good for the others; `retryAfter` says when to ask again [s]. */
export class TooManyRequests extends AppError {
  readonly retryAfter: number;

  constructor(what: string, retryAfter: number) {
    const seconds = Math.max(1, Math.ceil(retryAfter));
    super('too-many-requests', what, [
      { field: 'Retry-After', message: `ask again in ${seconds} s; the header says the same` },
    ]);
    this.retryAfter = seconds;
  }
}

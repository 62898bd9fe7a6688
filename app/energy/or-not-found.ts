import { notFound } from 'next/navigation';
import { AppError } from '@/lib/contract/app-error';

/** What a view gives; the page of what is not there for a site that is not. */
export function orNotFound<View>(view: () => View): View {
  try {
    return view();
  } catch (error) {
    if (error instanceof AppError && error.code === 'not-found') notFound();
    throw error;
  }
}

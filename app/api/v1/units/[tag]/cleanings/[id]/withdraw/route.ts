import { withdrawalRoute } from '@/app/api/withdrawal-route';
import { takeCleaningWithdrawal } from '@/lib/work/withdraw-cleaning';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Withdraws a cleaning, which stays in the history, and answers with all of them. */
export const POST = withdrawalRoute('cleaning', takeCleaningWithdrawal);

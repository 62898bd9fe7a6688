import { withdrawalRoute } from '@/app/api/withdrawal-route';
import { takeVerdictWithdrawal } from '@/lib/work/withdraw-verdict';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Withdraws a verdict, which stays in the history, and answers with all of them. */
export const POST = withdrawalRoute('verdict', takeVerdictWithdrawal);

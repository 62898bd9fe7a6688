import { withdrawalRoute } from '@/app/api/withdrawal-route';
import { takeAnswerWithdrawal } from '@/lib/work/withdraw-answer';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Takes an answer to a fall back, with the cleaning recorded by it, and answers with all falls. */
export const POST = withdrawalRoute('answer', takeAnswerWithdrawal);

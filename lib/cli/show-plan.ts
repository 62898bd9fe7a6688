import { workTable } from '@/lib/report/work-list/work-table';
import { showWorkList } from '@/lib/work/read-work-list';
import { message, type OutputOptions, print } from './output';
import { withContext } from './with-context';

/** The accepted plan and the work that came out of it. */
export async function showPlan(options: OutputOptions): Promise<void> {
  const document = await withContext(showWorkList);
  const { plan } = document;
  const said =
    plan === null
      ? 'no plan has been accepted yet: accept one on the plan page, or by POST /api/v1/plan/accept'
      : `plan ${plan.id}, accepted ${plan.acceptedAt} by ${plan.acceptedBy}`;
  message(said);
  print(options, { document, table: workTable(document) });
}

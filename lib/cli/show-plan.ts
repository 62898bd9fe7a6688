import { workTable } from '@/lib/report/work-list/work-table';
import { showWorkList } from '@/lib/work/read-work-list';
import { message, type OutputOptions, print } from './output';
import { withContext } from './with-context';

/** The accepted plans and the work that came out of it. */
export async function showPlan(options: OutputOptions): Promise<void> {
  const document = await withContext(showWorkList);
  const { plans } = document;
  if (plans.length === 0)
    message('no plan has been accepted yet: accept one on the plan page, or by POST /api/v1/plan/accept');
  for (const { id, site, acceptedAt, acceptedBy } of plans)
    message(`plan ${id}${site === null ? '' : ` of ${site}`}, accepted ${acceptedAt} by ${acceptedBy}`);
  print(options, { document, table: workTable(document) });
}

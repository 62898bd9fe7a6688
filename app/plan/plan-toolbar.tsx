'use client';

import { usePathname, useRouter, useSearchParams } from 'next/navigation';
import { useTransition } from 'react';
import { Button } from '@/app/ui/button/button';
import { Choice } from '@/app/ui/choice/choice';
import { Pick } from '@/app/ui/choice/pick';
import { formatNumber } from '@/lib/report/format/figure';
import {
  PLAN_CONFIDENCES,
  PLAN_WEEKS,
  type PlanAddress,
  readPlanAddress,
  writePlanAddress,
} from '@/lib/report/plan/plan-address';
import { planCsv } from '@/lib/report/plan/plan-csv';
import { planTable } from '@/lib/report/plan/plan-table';
import styles from './plan.module.css';
import type { Stage } from './stage';

const VIEWS = [
  { value: 'axis', label: 'Axis' },
  { value: 'table', label: 'Table' },
] as const;

type Props = { stage: Stage; isSolving: boolean; solve: () => void };

/** What is planned, how far, how surely, how it is shown; and solving around what is locked. */
export function PlanToolbar({ stage, isSolving, solve }: Props) {
  const { view, board } = stage;
  const { address, change, isWaiting } = usePlanAddress();
  const locked = board.draft.locked.flat().length;
  return (
    <div className={`${styles.toolbar} screen-only`} aria-busy={isWaiting}>
      {view.sites.length > 1 ? (
        <Pick
          label="Site"
          options={view.sites.map((site) => ({ value: site, label: site }))}
          value={view.site}
          onPick={(site) => change({ site })}
        />
      ) : null}
      <Pick
        label="Ahead"
        options={withOwn(PLAN_WEEKS, view.request.weeks).map((weeks) => ({
          value: String(weeks),
          label: `${weeks} weeks`,
        }))}
        value={String(view.request.weeks)}
        onPick={(weeks) => change({ weeks: Number(weeks) })}
      />
      <Pick
        label="Before the limit with"
        options={withOwn(PLAN_CONFIDENCES, view.request.confidence).map((share) => ({
          value: String(share),
          label: `${formatNumber(100 * share, 0)} % confidence`,
        }))}
        value={String(view.request.confidence)}
        onPick={(share) => change({ confidence: Number(share) })}
      />
      <Button weight={board.base === null ? 'primary' : 'plain'} disabled={isSolving} onClick={solve}>
        {board.base === null
          ? 'Make a plan'
          : locked === 0
            ? 'Solve anew'
            : `Solve the rest (${locked} locked)`}
      </Button>
      <span className={styles.show}>
        <Choice
          label="View"
          options={VIEWS}
          value={address.view}
          onChoose={(chosen) => change({ view: chosen })}
        />
        <Button weight="quiet" onClick={() => download(stage)}>
          CSV
          <span className="unseen"> of the plan as it stands</span>
        </Button>
      </span>
    </div>
  );
}

function withOwn(offered: readonly number[], own: number): number[] {
  return [...new Set([...offered, own])].sort((a, b) => a - b);
}

/** The page's address and a way to change it; only another view needs no other figures from the server. */
function usePlanAddress() {
  const router = useRouter();
  const path = usePathname();
  const search = useSearchParams();
  const [isWaiting, startTransition] = useTransition();
  const change = (changes: Partial<PlanAddress>) => {
    const query = writePlanAddress(changes, new URLSearchParams(window.location.search)).toString();
    const next = query === '' ? path : `${path}?${query}`;
    if (changes.view !== undefined) window.history.replaceState(null, '', next);
    else startTransition(() => router.replace(next, { scroll: false }));
  };
  return { address: readPlanAddress(Object.fromEntries(search)), change, isWaiting };
}

function download({ view, desk, board }: Stage) {
  const text = planCsv(planTable(desk, board.draft, board.price), desk.currency);
  const url = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `cleanby-plan-${view.site}-${view.today}.csv`.replaceAll(' ', '-');
  link.click();
  URL.revokeObjectURL(url);
}

'use client';

import { useEffect, useMemo, useState } from 'react';
import { DraftReader } from '@/lib/report/setup/draft-reader';
import { type UsedFluid, usedFluid } from '@/lib/report/setup/fluid-plot';
import { streamDocument } from '@/lib/report/setup/stream-document';
import type { Side } from '@/lib/report/setup/unit-draft';
import { fluidCurvesAction } from './fluid-curves-action';
import { FluidPlots } from './fluid-plots';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

/** Rest after the last keystroke before the server is asked [ms]. */
const REST_MS = 300;

/** What the product uses for a fluid it knows, over the whole range; asked for once it is opened. */
export function UsedProperties({ side }: { side: Side }) {
  const { draft, system } = useSetup();
  const [isOpen, setIsOpen] = useState(false);
  const [used, setUsed] = useState<UsedFluid | null>(null);
  const typed = draft[side];
  const stream = useMemo(() => JSON.stringify(streamDocument(new DraftReader(), side, typed)), [side, typed]);

  useEffect(() => {
    if (!isOpen) return;
    let isCurrent = true;
    const timer = setTimeout(async () => {
      const curves = await fluidCurvesAction(JSON.parse(stream)).catch(() => null);
      if (isCurrent) setUsed(curves === null ? null : usedFluid(curves, system));
    }, REST_MS);
    return () => {
      isCurrent = false;
      clearTimeout(timer);
    };
  }, [isOpen, stream, system]);

  return (
    <details className={styles.paste} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>Properties that are used</summary>
      <p className={styles.wholeSaid} role="status">
        {used?.said ?? 'They are shown as soon as the fluid is stated.'}
      </p>
      {used === null ? null : (
        <FluidPlots plots={used.plots} label={`Properties used for the ${side} stream`} />
      )}
    </details>
  );
}

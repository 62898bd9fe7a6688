'use client';

import { type ReactNode, useEffect, useRef } from 'react';

type Props = { marks: number; lastMark: string; children: ReactNode };

/**
 * Around the list: a line that is marked may move to another group and take the focus with it. Then the control that now
 * stands in its place has it, and what was kept is read out.
 */
export function KeepPlace({ marks, lastMark, children }: Props) {
  const list = useRef<HTMLDivElement>(null);
  const place = useRef(-1);
  const known = useRef(marks);
  useEffect(() => {
    if (known.current === marks) return;
    known.current = marks;
    if (document.activeElement !== document.body || place.current < 0) return;
    const controls = controlsIn(list.current);
    controls[Math.min(place.current, controls.length - 1)]?.focus();
  }, [marks]);
  const remember = () => {
    place.current = controlsIn(list.current).indexOf(document.activeElement as HTMLElement);
  };
  return (
    <div ref={list} onSubmitCapture={remember}>
      <p role="status" className="unseen">
        {lastMark}
      </p>
      {children}
    </div>
  );
}

function controlsIn(list: HTMLElement | null): HTMLElement[] {
  return [...(list?.querySelectorAll<HTMLElement>('form[data-mark="seen"] button') ?? [])];
}

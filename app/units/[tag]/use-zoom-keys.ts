'use client';

import { type RefObject, useEffect, useEffectEvent } from 'react';
import { AXIS_WIDTH, rightMargin } from '@/app/ui/chart/chart-margins';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { type DayLimits, type Days, panDays, ZOOM_STEP, zoomDays } from '@/lib/report/unit/zoom-days';

type Zooming = {
  /** The days last asked for: strokes of a key add up. */
  target: Days;
  limits: DayLimits;
  axis: TimeAxis;
  lookAt: (days: Days | null) => void;
  onReset: () => void;
};

/** One notch of a wheel looks closer by this [-] (own choice). */
const WHEEL_STEP = 1.5;

/** Keys that look closer or from further away (`=` is where + stands without Shift), and to the sides. */
const ZOOMS: Record<string, number> = { '+': 1 / ZOOM_STEP, '=': 1 / ZOOM_STEP, '-': ZOOM_STEP };
const PANS: Record<string, -1 | 1> = { ArrowLeft: -1, ArrowRight: 1 };

/** Looks closer by keys while the focus is among the charts, and by a wheel held with Ctrl or ⌘, as for the page itself. */
export function useZoomKeys(
  ref: RefObject<HTMLElement | null>,
  { target, limits, axis, lookAt, onReset }: Zooming,
): void {
  const press = useEffectEvent((event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
    if (event.key === '0') onReset();
    else if (event.key in ZOOMS) lookAt(zoomDays(target, ZOOMS[event.key]!, limits));
    else if (event.key in PANS) lookAt(panDays(target, PANS[event.key]!, limits));
    else return;
    event.preventDefault();
  });
  const turn = useEffectEvent((event: WheelEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.deltaY === 0) return;
    event.preventDefault();
    const centre = shareOfPast(event, ref.current, axis);
    lookAt(zoomDays(target, event.deltaY < 0 ? 1 / WHEEL_STEP : WHEEL_STEP, limits, centre));
  });
  useEffect(() => {
    const element = ref.current;
    // The keys count in the whole section, its buttons included.
    const section = element?.closest('section') ?? element;
    const onKey = (event: KeyboardEvent) => press(event);
    const onWheel = (event: WheelEvent) => turn(event);
    section?.addEventListener('keydown', onKey);
    element?.addEventListener('wheel', onWheel, { passive: false });
    return () => {
      section?.removeEventListener('keydown', onKey);
      element?.removeEventListener('wheel', onWheel);
    };
  }, [ref]);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('input, select, textarea') !== null;
}

/** Where in the shown days the pointer stands [-]. */
function shareOfPast(event: WheelEvent, element: HTMLElement | null, axis: TimeAxis): number {
  if (element === null) return 0.5;
  const { left, width } = element.getBoundingClientRect();
  const plot = width - AXIS_WIDTH - rightMargin(width, axis);
  const share = (event.clientX - left - AXIS_WIDTH) / plot / (1 - axis.futureShare);
  return Math.min(Math.max(share, 0), 1);
}

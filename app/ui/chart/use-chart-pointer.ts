'use client';

import { type RefObject, useEffect, useEffectEvent, useState } from 'react';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { AXIS_WIDTH } from './chart-margins';

type Handlers = {
  axis: TimeAxis;
  /** Right margin of the plot [px]. */
  right: number;
  /** A pointer is over the chart. */
  onPoint: () => void;
  /** An instant was clicked [ms]. */
  onPick: (time: number) => void;
  /** A stretch was drawn across the chart [ms]; absent where none can be. */
  onSelect: ((from: number, to: number) => void) | undefined;
};

/** Moved less than this a pointer has clicked, more it has drawn a stretch [px]. */
const LEAST_DRAG = 6;

type Drag = { at: number; id: number };

/** Pointing, clicking and drawing a stretch on a chart; gives the stretch being drawn [px]. */
export function useChartPointer(
  ref: RefObject<HTMLElement | null>,
  { axis, right, onPoint, onPick, onSelect }: Handlers,
): { left: number; width: number } | null {
  const [drag, setDrag] = useState<Drag | null>(null);
  const [to, setTo] = useState(0);
  const timeAt = (x: number, width: number) => {
    const share = (x - AXIS_WIDTH) / (width - AXIS_WIDTH - right);
    return axis.from + Math.min(Math.max(share, 0), 1) * (axis.end - axis.from);
  };
  const down = useEffectEvent((event: PointerEvent, x: number) => {
    if (!event.isPrimary || event.button !== 0) return;
    setDrag({ at: x, id: event.pointerId });
    setTo(x);
  });
  const move = useEffectEvent((event: PointerEvent, x: number) => {
    if (event.pointerType === 'mouse' && drag === null) onPoint();
    if (drag !== null && event.pointerId === drag.id) setTo(x);
  });
  const up = useEffectEvent((event: PointerEvent, { x, width }: { x: number; width: number }) => {
    if (drag === null || event.pointerId !== drag.id) return;
    setDrag(null);
    if (Math.abs(x - drag.at) < LEAST_DRAG) onPick(timeAt(x, width));
    else onSelect?.(timeAt(Math.min(x, drag.at), width), timeAt(Math.max(x, drag.at), width));
  });
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const place = (event: PointerEvent) => {
      const { left, width } = element.getBoundingClientRect();
      return { x: event.clientX - left, width };
    };
    const onDown = (event: PointerEvent) => down(event, place(event).x);
    const onMove = (event: PointerEvent) => move(event, place(event).x);
    const onUp = (event: PointerEvent) => up(event, place(event));
    const onCancel = () => setDrag(null);
    element.addEventListener('pointerdown', onDown);
    element.addEventListener('pointermove', onMove);
    // A stretch may be drawn beyond the edge.
    window.addEventListener('pointerup', onUp);
    window.addEventListener('pointercancel', onCancel);
    return () => {
      element.removeEventListener('pointerdown', onDown);
      element.removeEventListener('pointermove', onMove);
      window.removeEventListener('pointerup', onUp);
      window.removeEventListener('pointercancel', onCancel);
    };
  }, [ref]);
  if (drag === null || onSelect === undefined || Math.abs(to - drag.at) < LEAST_DRAG) return null;
  return { left: Math.min(drag.at, to), width: Math.abs(to - drag.at) };
}

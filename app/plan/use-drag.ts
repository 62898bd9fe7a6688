'use client';

import { type PointerEvent, useRef, useState } from 'react';
import { type Place, placesFor } from '@/lib/report/plan/draft-places';
import type { PlanDraft } from '@/lib/report/plan/draft-plan';
import { optionAt, type PlanDesk, type Spot } from '@/lib/report/plan/plan-desk';
import type { DaySpan } from '@/lib/report/time-axis';

/** A pointer that moves less does not drag [px]. */
const LEAST_DRAG_PX = 4;

/** A cleaning in the hand: where it came from, where it could go, the place it is over now. */
export type Drag = { spot: Spot; places: Place[]; over: Place };

type Grip = { spot: Spot; fromX: number; left: number; width: number; grabbedAt: number };
type Given = { desk: PlanDesk; draft: PlanDraft; span: DaySpan; drop: (spot: Spot, option: number) => void };

/** Drags cleanings along the axis; they snap to the nearest place the unit can be cleaned at. Esc puts one back. */
export function useDrag({ desk, draft, span, drop }: Given) {
  const [drag, setDrag] = useState<Drag | null>(null);
  const grip = useRef<Grip | null>(null);
  const wasDragged = useRef(false);

  const letGo = () => {
    grip.current = null;
    setDrag(null);
  };
  const dayAt = (x: number, { left, width }: Pick<Grip, 'left' | 'width'>) =>
    span.from + ((x - left) / width) * (span.to - span.from);

  const onPointerDown = (event: PointerEvent<HTMLElement>, spot: Spot) => {
    const scale = event.currentTarget.parentElement;
    if (event.button !== 0 || scale === null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const { left, width } = scale.getBoundingClientRect();
    const grabbedAt = dayAt(event.clientX, { left, width }) - optionAt(desk, spot).start;
    grip.current = { spot, fromX: event.clientX, left, width, grabbedAt };
    wasDragged.current = false;
  };

  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    const held = grip.current;
    if (held === null) return;
    if (drag === null && Math.abs(event.clientX - held.fromX) < LEAST_DRAG_PX) return;
    wasDragged.current = true;
    const places = drag?.places ?? placesFor(desk, draft, held.spot);
    const day = dayAt(event.clientX, held) - held.grabbedAt;
    const over = nearestPlace(places, day);
    if (over !== null) setDrag({ spot: held.spot, places, over });
  };

  const onPointerUp = () => {
    if (drag !== null && drag.over.option !== drag.spot.option) drop(drag.spot, drag.over.option);
    letGo();
  };

  /** Whether the click that follows a press ends a drag: then it selects nothing. */
  const endsDrag = () => {
    const ends = wasDragged.current;
    wasDragged.current = false;
    return ends;
  };

  return { drag, letGo, onPointerDown, onPointerMove, onPointerUp, endsDrag };
}

export type Dragging = ReturnType<typeof useDrag>;

function nearestPlace(places: readonly Place[], day: number): Place | null {
  return places.reduce<Place | null>(
    (best, place) =>
      best === null || Math.abs(place.start - day) < Math.abs(best.start - day) ? place : best,
    null,
  );
}

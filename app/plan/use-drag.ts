'use client';

import { type PointerEvent, useLayoutEffect, useRef, useState } from 'react';
import { nearestPlace, type Place, placesFor } from '@/lib/report/plan/draft-places';
import type { PlanDraft } from '@/lib/report/plan/draft-plan';
import { optionAt, type PlanDesk, type Spot } from '@/lib/report/plan/plan-desk';
import type { DaySpan } from '@/lib/report/time-axis';

/** A pointer that moves less does not drag [px]. */
const LEAST_DRAG_PX = 4;

/** A cleaning in the hand: where it came from, where it could go, the place it is over now. */
export type Drag = { spot: Spot; places: Place[]; over: Place };

/** What the pointer holds; rows are not drawn anew for what happens elsewhere, so this is the one that counts. */
type Grip = {
  spot: Spot;
  fromX: number;
  left: number;
  width: number;
  grabbedAt: number;
  /** null until it has moved far enough to drag. */
  drag: Drag | null;
};
type Given = { desk: PlanDesk; draft: PlanDraft; span: DaySpan; drop: (spot: Spot, option: number) => void };

/** Drags cleanings along the axis; they snap to the nearest place the unit can be cleaned at. Esc puts one back. */
export function useDrag({ desk, draft, span, drop }: Given) {
  const [drag, setDrag] = useState<Drag | null>(null);
  const grip = useRef<Grip | null>(null);
  const wasDragged = useRef(false);
  const latest = useRef(draft);
  useLayoutEffect(() => {
    latest.current = draft;
  });

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
    grip.current = { spot, fromX: event.clientX, left, width, grabbedAt, drag: null };
    wasDragged.current = false;
  };

  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    const held = grip.current;
    if (held === null) return;
    if (held.drag === null && Math.abs(event.clientX - held.fromX) < LEAST_DRAG_PX) return;
    wasDragged.current = true;
    const places = held.drag?.places ?? placesFor(desk, latest.current, held.spot);
    const over = nearestPlace(places, dayAt(event.clientX, held) - held.grabbedAt);
    if (over === null || over === held.drag?.over) return;
    held.drag = { spot: held.spot, places, over };
    setDrag(held.drag);
  };

  const onPointerUp = () => {
    const dropped = grip.current?.drag ?? null;
    if (dropped !== null && dropped.over.option !== dropped.spot.option)
      drop(dropped.spot, dropped.over.option);
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

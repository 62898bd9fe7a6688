'use client';

import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** The width of an element on screen [px], a given one until it is known. */
export function useWidth<Kind extends HTMLElement>(usual: number): [RefObject<Kind | null>, number] {
  const element = useRef<Kind>(null);
  const [width, setWidth] = useState(usual);
  useLayoutEffect(() => {
    const shown = element.current;
    if (shown === null) return;
    // Hidden (on a phone, in print, on a page that is being left) it has no width; the last one still serves.
    const take = (measured: number) => setWidth((before) => (measured > 0 ? measured : before));
    const observer = new ResizeObserver(([entry]) => take(entry!.contentRect.width));
    take(shown.getBoundingClientRect().width);
    observer.observe(shown);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}

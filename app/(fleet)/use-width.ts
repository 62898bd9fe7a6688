'use client';

import { type RefObject, useEffect, useRef, useState } from 'react';

/** The width of an element on screen [px], a given one until it is known. */
export function useWidth<Kind extends HTMLElement>(usual: number): [RefObject<Kind | null>, number] {
  const element = useRef<Kind>(null);
  const [width, setWidth] = useState(usual);
  useEffect(() => {
    if (element.current === null) return;
    const observer = new ResizeObserver(([entry]) => {
      // Hidden (on a phone, in print) it has no width; the last one still serves.
      if (entry !== undefined && entry.contentRect.width > 0) setWidth(entry.contentRect.width);
    });
    observer.observe(element.current);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}

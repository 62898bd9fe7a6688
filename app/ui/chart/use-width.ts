'use client';

import { useLayoutEffect, useRef, useState } from 'react';

/** Width assumed while the page is still on the server [px]. */
const FIRST_WIDTH = 1100;

/** The width of an element, kept up to date. */
export function useWidth() {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(FIRST_WIDTH);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => setWidth(entry!.contentRect.width));
    setWidth(element.clientWidth);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { ref, width };
}

'use client';

import { useRouter } from 'next/navigation';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { ChartsView } from '@/lib/report/unit/charts-view';
import { type Days, within } from '@/lib/report/unit/zoom-days';
import { isoDay } from '@/lib/time/calendar-day';
import { fetchCharts } from './fetch-charts';

/** Turns of a wheel and strokes of a key that follow each other sooner than this are one look [ms] (own choice). */
const PAUSE_MS = 40;
/** So long after the last look the address and the rest of the page follow [ms] (own choice). */
const SETTLE_MS = 400;

/**
 * The charts of the page, and how to look closer: the picture is fetched by itself and drawn at once, the rest of the page
 * and its address follow when the reader has settled. Answers that came too late are dropped.
 */
export function useCharts(given: ChartsView) {
  const router = useRouter();
  const [shown, setShown] = useState(given);
  const [adopted, setAdopted] = useState(given);
  const [wanted, setWanted] = useState<string | null>(null);
  const [isLooking, setLooking] = useState(false);
  const request = useRef<AbortController | null>(null);
  const timers = useRef<ReturnType<typeof setTimeout>[]>([]);
  const [target, setTarget] = useState<Days>(given.period.days);
  if (given !== adopted) {
    setAdopted(given);
    // A page that was asked for before the reader looked on says nothing new.
    if (wanted === null || wanted === given.period.href) {
      setWanted(null);
      setShown(given);
      setTarget(given.period.days);
    }
  }
  const stop = useCallback(() => {
    request.current?.abort();
    for (const timer of timers.current) clearTimeout(timer);
    timers.current = [];
  }, []);
  useEffect(() => stop, [stop]);

  /** Shows another address of the page. */
  const look = (href: string, days: Days | null = null, pause = 0) => {
    stop();
    const controller = new AbortController();
    request.current = controller;
    setWanted(href);
    setLooking(true);
    if (days !== null) setTarget(days);
    const settle = () => router.push(href, { scroll: false });
    const fetchNow = async () => {
      try {
        const found = await fetchCharts(href, controller.signal);
        if (controller.signal.aborted) return;
        setShown(found);
        setTarget(found.period.days);
        setLooking(false);
        timers.current.push(setTimeout(settle, SETTLE_MS));
      } catch {
        if (controller.signal.aborted) return;
        // The page knows how to say what is wrong.
        setLooking(false);
        settle();
      }
    };
    if (pause === 0) void fetchNow();
    else timers.current.push(setTimeout(fetchNow, pause));
  };
  /** Shows other days, as far as there are any. */
  const lookAt = (days: Days | null) => {
    if (days === null) return;
    const { daysHref, limits } = shown.period;
    const { fromDay, toDay } = within(days, limits);
    const href = daysHref.replace('{from}', isoDay(fromDay)).replace('{to}', isoDay(toDay));
    look(href, { fromDay, toDay }, PAUSE_MS);
  };
  return { shown, target, isLooking, look: (href: string) => look(href), lookAt };
}

import { AppError } from '@/lib/contract/app-error';
import type { FluidCurves } from '@/lib/contract/fluid-curves';
import { fluidSpec } from '@/lib/contract/fluid-spec';
import { streamSchema } from '@/lib/contract/stream';
import type { Fluid } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';

/** Enough for a smooth line in a small plot. */
const POINTS = 61;

/** The properties of a stream as far as a datasheet states it; null while it does not say enough, or what cannot be. */
export function fluidCurves(stream: unknown): FluidCurves | null {
  const parsed = streamSchema.safeParse(stream);
  if (!parsed.success) return null;
  try {
    return curvesOf(makeFluid(fluidSpec(parsed.data, 'stream')));
  } catch (error) {
    if (error instanceof AppError || error instanceof RangeError) return null;
    throw error;
  }
}

function curvesOf(fluid: Fluid): FluidCurves {
  const { name, minimum, maximum } = fluid;
  const temperatures = Array.from({ length: POINTS }, (_, i) =>
    i === POINTS - 1 ? maximum : minimum + ((maximum - minimum) * i) / (POINTS - 1),
  );
  const stated = (['specificHeat', 'density', 'viscosity', 'conductivity'] as const).flatMap((kind) => {
    const property = fluid[kind];
    return property === null ? [] : [[kind, temperatures.map((t) => orNull(property(t)))] as const];
  });
  return { name, temperatures, properties: Object.fromEntries(stated) };
}

function orNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

import { it } from 'vitest';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { breathingStates, readingsOf, waterUnit, withNoise } from './support/forward-readings';
it('try', () => {
  const ex = waterUnit();
  const ex2 = waterUnit({
    arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2 },
    area: 30,
    design: { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 },
  });
  for (const [k, e0] of [ex, ex2].entries()) {
  const r = readingsOf(breathingStates(e0, 24*200, h => 3e-8*h));
  for (const res of [0,0.1,0.5,1]) { const n = withNoise(r, e0, 4711+k, res);
  const f = evaluateReadings({ exchanger: e0, settings: DEFAULT_CHECK_SETTINGS, readings: n });
  const c: any = {}; f.reasons.forEach(m=>reasonsOf(m).forEach(x=>c[x]=(c[x]??0)+1)); console.log(res, JSON.stringify(c));
  if (res===0.5) for (const s of ['hotIn','hotOut','coldIn','coldOut','hotFlow','coldFlow'] as const) { let st=-1; for (let i=1;i<=n.time.length;i++){ if (i<n.time.length && n[s][i]===n[s][i-1]) { if(st<0) st=i-1;} else { if (st>=0 && i-1-st>=9 && (f.reasons[st]!&64)) console.log(s, st, i-1-st+1); st=-1; } } }
  } }
});

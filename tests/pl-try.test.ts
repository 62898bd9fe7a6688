import { it } from 'vitest';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { breathingStates, readingsOf, waterUnit, withNoise } from './support/forward-readings';
it('try', () => {
  const ex = waterUnit();
  const st = breathingStates(ex, 24*60, h => 1e-8*h);
  const r = readingsOf(st);
  const e = evaluateReadings({ exchanger: ex, settings: DEFAULT_CHECK_SETTINGS, readings: r });
  let worst=0, wu=0, wc=0; st.forEach((s,i)=>{ worst=Math.max(worst, Math.abs(e.foulingResistance[i]!-s.fouling)); wu=Math.max(wu,Math.abs(e.overallU[i]!/s.overallU-1)); wc=Math.max(wc,Math.abs(e.cleanU[i]!/s.cleanU-1))});
  console.log('worst rf', worst, wu, wc, [...e.reasons].filter(x=>x).length);
  for (const res of [0,0.1,0.5]) { const n = withNoise(r, ex, 7, res);
  const f = evaluateReadings({ exchanger: ex, settings: DEFAULT_CHECK_SETTINGS, readings: n });
  const c: any = {}; f.reasons.forEach(m=>reasonsOf(m).forEach(x=>c[x]=(c[x]??0)+1)); console.log(res, c, f.foulingResistanceUncertainty[100], f.foulingResistanceSystematic[100], f.overallUUncertainty[100]!/f.overallU[100]!, f.dutyUncertainty[100]!/f.duty[100]!); }
  // speed
  const N = 300000; const big:any={}; const src=withNoise(r,ex,7); for (const k of Object.keys(src)) { const a=(src as any)[k]; const b=new a.constructor(N); for(let i=0;i<N;i++) b[i]=a[i%a.length]; big[k]=b;} for(let i=0;i<N;i++) big.time[i]=i*3.6e6;
  for (let k=0;k<3;k++){ const t=performance.now(); evaluateReadings({ exchanger: ex, settings: DEFAULT_CHECK_SETTINGS, readings: big }); const d=performance.now()-t; console.log('rate', Math.round(N/d*1000)); }
});

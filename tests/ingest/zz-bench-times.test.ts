import { it } from 'vitest';
import { TimeField } from '@/lib/ingest/time-field';
it('bench', () => {
  const base = Date.UTC(2026,0,1);
  const iso = Array.from({length: 20000}, (_, i) => new Date(base + i*60000).toISOString().slice(0,19).replace('T',' '));
  const M=['Jan','Feb','Mar','Apr','May','Jun','Jul','Aug','Sep','Oct','Nov','Dec'];
  const p=(s:string)=>[s.slice(0,4),s.slice(5,7),s.slice(8,10),s.slice(11)];
  const sets: Record<string,[string,string[][],number]> = {
    iso: ['iso', iso.map(s=>[s]), -1],
    'iso Z': ['iso', iso.map(s=>[s+'Z']), -1],
    dots: ['day-first', iso.map(s=>{const [y,m,d,t]=p(s);return [`${d}.${m}.${y} ${t}`]}), -1],
    ampm: ['month-first', iso.map(s=>{const [y,m,d,t]=p(s);return [`${m}/${d}/${y} ${String(Number(t.slice(0,2))%12||12)}${t.slice(2)} AM`]}), -1],
    named: ['day-first', iso.map(s=>{const [y,m,d,t]=p(s);return [`${d}-${M[Number(m)-1]}-${y.slice(2)} ${t}`]}), -1],
    slash: ['iso', iso.map(s=>[s.replaceAll('-','/')]), -1],
    two: ['day-first', iso.map(s=>{const [y,m,d,t]=p(s);return [t, `${d}.${m}.${y}`]}), 1],
    epoch: ['epoch-seconds', iso.map(s=>[String(Date.parse(s+'Z')/1000)]), -1],
    serial: ['excel-serial', iso.map(s=>[String((Date.parse(s+'Z')/864e5+25569).toFixed(9))]), -1],
  };
  const builder = { setAside() { throw new Error('aside'); } } as never;
  for (let round=0; round<3; round++) for (const [name,[format, rows, dateField]] of Object.entries(sets)) {
    const f = new TimeField({field:0,dateField,name:'t'}, {format: format as never, evidence:''}, {knownTags:new Set(),mapping:null,timeZone:'UTC'});
    let best=Infinity;
    for (let k=0;k<15;k++){ const t=performance.now(); for (const r of rows) f.read(r,{line:1,text:''},builder); best=Math.min(best,performance.now()-t);}
    if(round===2) console.log(name, (best/20000*1e6).toFixed(0)+' ns');
  }
});

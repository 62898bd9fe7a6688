import { describe, expect, it } from 'vitest';
import { WallClock } from '@/lib/ingest/wall-clock';
import { readFile } from './read-file';

/**
 * The changes of 2026: the local times that are skipped and those that come twice, first inclusive, last exclusive.
 * From the rules of each zone (first and last Sundays; time zone database): written down here, not computed.
 */
const CHANGES = [
  {
    zone: 'Europe/Lisbon',
    skipped: ['2026-03-29', '01:00', '02:00'],
    twice: ['2026-10-25', '01:00', '02:00'],
    offsets: '+01:00 or +00:00',
  },
  {
    zone: 'America/New_York',
    skipped: ['2026-03-08', '02:00', '03:00'],
    twice: ['2026-11-01', '01:00', '02:00'],
    offsets: '-04:00 or -05:00',
  },
  {
    zone: 'America/St_Johns',
    skipped: ['2026-03-08', '02:00', '03:00'],
    twice: ['2026-11-01', '01:00', '02:00'],
    offsets: '-02:30 or -03:30',
  },
  {
    zone: 'Australia/Lord_Howe',
    skipped: ['2026-10-04', '02:00', '02:30'],
    twice: ['2026-04-05', '01:30', '02:00'],
    offsets: '+11:00 or +10:30',
  },
  {
    zone: 'Pacific/Auckland',
    skipped: ['2026-09-27', '02:00', '03:00'],
    twice: ['2026-04-05', '02:00', '03:00'],
    offsets: '+13:00 or +12:00',
  },
  {
    zone: 'America/Santiago',
    skipped: ['2026-09-06', '00:00', '01:00'],
    twice: ['2026-04-04', '23:00', '24:00'],
    offsets: '-03:00 or -04:00',
  },
] as const;

const HEADER = 'tag,time,hot_in[Cel]';
const TEN_MINUTES = 600_000;

/** Local times of a day, ten minutes apart, as a file without offsets. */
function dayWithoutOffsets(day: string): string {
  const rows = Array.from({ length: 144 }, (_, i) => `E-101,${day} ${clock(i)},${i}`);
  return [HEADER, ...rows, ''].join('\n');
}

function clock(i: number): string {
  return `${String(Math.floor(i / 6)).padStart(2, '0')}:${i % 6}0`;
}

describe.each(CHANGES)('in $zone', ({ zone, skipped, twice, offsets }) => {
  it('local times that do not exist are set aside, all others of the day are read', async () => {
    const [day, from, to] = skipped;
    const { rows, setAside } = await readFile(dayWithoutOffsets(day), { timeZone: zone });
    const gone = setAside.map((row) => row.text.slice(17, 22));
    const expected = Array.from({ length: 144 }, (_, i) => clock(i)).filter(
      (time) => time >= from && time < to,
    );
    expect(gone).toEqual(expected);
    expect(setAside.every((row) => row.reason === 'time-does-not-exist' && row.message.includes(zone))).toBe(
      true,
    );
    // What is left of the day has no gap: the clock was put forward over it.
    const times = rows.map((row) => Date.parse(row.time));
    expect(times.slice(1).every((time, i) => time - times[i]! === TEN_MINUTES)).toBe(true);
    expect(times).toHaveLength(144 - expected.length);
  });

  it('local times that occur twice are set aside with both offsets, all others of the day are read', async () => {
    const [day, from, to] = twice;
    const { rows, setAside } = await readFile(dayWithoutOffsets(day), { timeZone: zone });
    const doubled = setAside.map((row) => row.text.slice(17, 22));
    const expected = Array.from({ length: 144 }, (_, i) => clock(i)).filter(
      (time) => time >= from && time < to,
    );
    expect(doubled).toEqual(expected);
    expect(setAside.every((row) => row.reason === 'time-occurs-twice')).toBe(true);
    expect(setAside[0]!.message).toContain(`write it with its offset, ${offsets}`);
    expect(rows).toHaveLength(144 - expected.length);
  });

  it('with offsets every instant of both days is read, 23 or 25 hours or half an hour less or more', async () => {
    for (const [day, from, to] of [skipped, twice]) {
      const written = instantsOfDay(zone, day);
      const change = ((minutes(to) - minutes(from)) / 10) * (day === skipped[0] ? -1 : 1);
      expect(written).toHaveLength(144 + change);
      const file = [HEADER, ...written.map(({ text }, i) => `E-101,${text},${i}`)].join('\n');
      const { rows, setAside } = await readFile(file, { timeZone: zone });
      expect(setAside).toEqual([]);
      expect(rows.map((row) => Date.parse(row.time))).toEqual(written.map(({ instant }) => instant));
    }
  });

  it('every ten minutes of the year agree with the platform counted forwards', { timeout: 120_000 }, () => {
    const clockOfZone = new WallClock(zone);
    const counted = new Map<number, number[]>();
    const first = Date.UTC(2025, 11, 30);
    const last = Date.UTC(2027, 0, 3);
    const wallOf = wallReader(zone);
    for (let instant = first; instant < last; instant += TEN_MINUTES) {
      const wall = wallOf(instant);
      counted.set(wall, [...(counted.get(wall) ?? []), instant]);
    }
    for (let wall = Date.UTC(2026, 0, 1); wall < Date.UTC(2027, 0, 1); wall += TEN_MINUTES) {
      const instants = counted.get(wall) ?? [];
      const expected =
        instants.length === 1
          ? instants[0]
          : instants.length === 0
            ? 'time-does-not-exist'
            : 'time-occurs-twice';
      expect(clockOfZone.resolve(wall)).toBe(expected);
    }
  });
});

function minutes(time: string): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
}

/** All instants of a local day, ten minutes apart, each with its offset as the platform says. */
function instantsOfDay(zone: string, day: string): { instant: number; text: string }[] {
  const wallOf = wallReader(zone);
  const found: { instant: number; text: string }[] = [];
  const around = Date.parse(`${day}T00:00Z`);
  for (let instant = around - 86_400_000; instant < around + 2 * 86_400_000; instant += TEN_MINUTES) {
    const local = new Date(wallOf(instant)).toISOString().slice(0, 16);
    if (!local.startsWith(day)) continue;
    const offset = (wallOf(instant) - instant) / 60_000;
    const size = Math.abs(offset);
    const written = [Math.floor(size / 60), size % 60].map((part) => String(part).padStart(2, '0')).join(':');
    found.push({ instant, text: `${local}${offset < 0 ? '-' : '+'}${written}` });
  }
  return found;
}

/** Local time of an instant by the platform's own formatter, as if it were UTC [ms]. */
function wallReader(zone: string): (instant: number) => number {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  });
  return (instant) => {
    const [, day, month, year, hour, minute] = /(\d+)\/(\d+)\/(\d+), (\d+):(\d+)/
      .exec(format.format(instant))!
      .map(Number);
    return Date.UTC(year!, month! - 1, day!, hour!, minute!);
  };
}

describe('files without offsets', () => {
  it('are set aside row by row where no zone is named anywhere, and nothing is guessed', async () => {
    const { rows, setAside } = await readFile(dayWithoutOffsets('2026-06-01'));
    expect(rows).toEqual([]);
    expect(setAside).toHaveLength(144);
    expect(setAside.every((row) => row.reason === 'time-without-zone')).toBe(true);
  });

  it('may mix in rows with offsets, which count as written', async () => {
    const file = `${HEADER}\nE-101,2026-10-25 01:30,1\nE-101,2026-10-25 01:30+01:00,2\nE-101,2026-10-25 01:30Z,3\n`;
    const { rows, setAside } = await readFile(file, { timeZone: 'Europe/Lisbon' });
    expect(rows.map((row) => row.time)).toEqual(['2026-10-25T00:30:00.000Z', '2026-10-25T01:30:00.000Z']);
    expect(setAside).toHaveLength(1);
  });

  it('are read in zones whose offset was once counted in seconds', () => {
    // Amsterdam kept +00:19:32 until 1937 (time zone database, from memory; its newer releases follow Brussels, +00:00).
    const wall = Date.UTC(1930, 0, 1, 12);
    const instant = new WallClock('Europe/Amsterdam').resolve(wall);
    expect([1_172_000, 0]).toContain(wall - (instant as number));
  });

  it('are resolved anew after ten thousand days, with the same answers', () => {
    const clockOfZone = new WallClock('Asia/Kolkata');
    const first = Date.UTC(2000, 0, 1);
    for (let day = 0; day < 10_050; day += 1) clockOfZone.resolve(first + day * 86_400_000);
    expect(clockOfZone.resolve(first)).toBe(first - 5.5 * 3_600_000);
  });
});

describe('a long plant-wide export over the day on which the clocks go back', () => {
  it('has each row of the repeated hour reported with its line, and every other row read', async () => {
    const header = 'Export;of;unit 100\n\nTag;E-101.hot_in;E-102.hot_in\nUnits;°C;°C\n';
    const begin = Date.parse('2026-10-24T00:00Z');
    const walls = Array.from({ length: 3 * 1440 }, (_, i) => new Date(begin + i * 60_000).toISOString());
    // A logger that runs by the clock on the wall writes the repeated hour twice.
    const folded = walls.filter((wall) => wall.startsWith('2026-10-25T01'));
    const times = walls.flatMap((wall) => (wall === '2026-10-25T02:00:00.000Z' ? [...folded, wall] : [wall]));
    const lines = times.map((wall, i) =>
      `${wall.slice(0, 16).replace('T', ' ')};${i};${i + 0.5}`.replace('.', ','),
    );
    const { rows, setAside, read } = await readFile(header + lines.join('\n'), { timeZone: 'Europe/Lisbon' });
    expect(read).toBe(times.length);
    const expected = times.flatMap((wall, i) => (wall.startsWith('2026-10-25T01') ? [i + 5] : []));
    expect(expected).toHaveLength(120);
    expect(setAside.map(({ line }) => line)).toEqual(expected);
    expect(setAside.every(({ reason }) => reason === 'time-occurs-twice')).toBe(true);
    expect(rows).toHaveLength(2 * (times.length - 120));
    const before = Date.parse('2026-10-25T00:59Z') - 3_600_000;
    expect(rows.filter(({ time }) => Date.parse(time) <= before)).toHaveLength(2 * (1440 + 60));
  });
});

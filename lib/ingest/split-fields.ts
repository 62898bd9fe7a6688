export type Delimiter = ',' | ';' | '\t';

/** Fields of one record: field i is `text.slice(starts[i], ends[i])`, without quotes and surrounding blanks. */
export type Fields = { text: string; count: number; starts: number[]; ends: number[] };

/** `open`: a quote is not closed on this line; `broken`: text follows a closing quote. */
export type Wholeness = 'whole' | 'open' | 'broken';

const QUOTE = 34;

export function makeFields(): Fields {
  return { text: '', count: 0, starts: [], ends: [] };
}

export function fieldText(fields: Fields, i: number): string {
  return fields.text.slice(fields.starts[i], fields.ends[i]);
}

/** Splits a line into `into`, which is reused from line to line: at a million lines objects per field would dominate. */
export function splitFields(line: string, delimiter: Delimiter, into: Fields): Wholeness {
  into.count = 0;
  if (line.includes('"')) return splitQuoted(line, delimiter, into);
  into.text = line;
  const code = delimiter.charCodeAt(0);
  let start = 0;
  for (let i = 0; i < line.length; i++) {
    if (line.charCodeAt(i) !== code) continue;
    addField(into, start, i);
    start = i + 1;
  }
  addField(into, start, line.length);
  return 'whole';
}

function addField(into: Fields, start: number, end: number): void {
  let from = start;
  let to = end;
  while (from < to && isBlank(into.text.charCodeAt(from))) from++;
  while (to > from && isBlank(into.text.charCodeAt(to - 1))) to--;
  into.starts[into.count] = from;
  into.ends[into.count] = to;
  into.count++;
}

// Space, tab, no-break space, narrow no-break space.
function isBlank(code: number): boolean {
  return code === 32 || code === 9 || code === 0xa0 || code === 0x202f;
}

/** RFC 4180 quoting: a field that begins with a quote ends at the next single quote; two quotes stand for one. */
function splitQuoted(line: string, delimiter: Delimiter, into: Fields): Wholeness {
  const contents: string[] = [];
  let at = 0;
  for (;;) {
    const begin = skipBlanks(line, at, delimiter);
    let end = line.indexOf(delimiter, begin);
    if (end < 0) end = line.length;
    if (line.charCodeAt(begin) === QUOTE) {
      const close = closingQuote(line, begin + 1);
      if (close < 0) return 'open';
      contents.push(line.slice(begin + 1, close).replaceAll('""', '"'));
      end = skipBlanks(line, close + 1, delimiter);
      if (end < line.length && line[end] !== delimiter) return 'broken';
    } else {
      contents.push(line.slice(begin, end));
    }
    if (end >= line.length) break;
    at = end + 1;
  }
  into.text = contents.join('');
  let start = 0;
  for (const content of contents) {
    addField(into, start, start + content.length);
    start += content.length;
  }
  return 'whole';
}

function skipBlanks(line: string, from: number, delimiter: Delimiter): number {
  let at = from;
  while (at < line.length && line[at] !== delimiter && isBlank(line.charCodeAt(at))) at++;
  return at;
}

function closingQuote(line: string, from: number): number {
  let at = line.indexOf('"', from);
  while (at >= 0 && line.charCodeAt(at + 1) === QUOTE) at = line.indexOf('"', at + 2);
  return at;
}

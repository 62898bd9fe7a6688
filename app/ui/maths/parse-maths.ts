/** A formula in the small notation of the worked steps, as a tree. */
export type MathsNode =
  | { kind: 'text'; text: string }
  | { kind: 'sub' | 'sup'; base: MathsNode; script: MathsNode[] }
  | { kind: 'fraction'; above: MathsNode[]; below: MathsNode[] }
  | { kind: 'root'; under: MathsNode[] };

type Cursor = { text: string; at: number };

/** Reads `a_{b}`, `a^{b}`, `frac{a}{b}` and `sqrt{a}`; everything else is text. */
export function parseMaths(text: string): MathsNode[] {
  return parseRow({ text, at: 0 });
}

function parseRow(cursor: Cursor): MathsNode[] {
  const nodes: MathsNode[] = [];
  while (cursor.at < cursor.text.length && cursor.text[cursor.at] !== '}') {
    const rest = cursor.text.slice(cursor.at);
    const script = /^([_^])\{/.exec(rest);
    if (rest.startsWith('frac{')) nodes.push(parseFraction(cursor));
    else if (rest.startsWith('sqrt{')) nodes.push({ kind: 'root', under: parseGroup(cursor, 'sqrt'.length) });
    else if (script) nodes.push(parseScript(cursor, script[1] === '_' ? 'sub' : 'sup', nodes.pop()));
    else nodes.push(parseText(cursor));
  }
  return nodes;
}

function parseFraction(cursor: Cursor): MathsNode {
  const above = parseGroup(cursor, 'frac'.length);
  return { kind: 'fraction', above, below: parseGroup(cursor, 0) };
}

function parseScript(cursor: Cursor, kind: 'sub' | 'sup', base: MathsNode | undefined): MathsNode {
  return { kind, base: base ?? { kind: 'text', text: '' }, script: parseGroup(cursor, 1) };
}

/** The row between braces; the cursor ends behind the closing one. */
function parseGroup(cursor: Cursor, skip: number): MathsNode[] {
  cursor.at += skip + 1;
  const nodes = parseRow(cursor);
  cursor.at += 1;
  return nodes;
}

/** A word with its spaces, or one other character: a script binds to the word before it, not to the whole line. */
function parseText(cursor: Cursor): MathsNode {
  const rest = cursor.text.slice(cursor.at);
  const word = /^(?!frac\{|sqrt\{)[\p{L}\p{M}\p{N}.,°%²³⁻]+/u.exec(rest)?.[0] ?? /^./su.exec(rest)![0];
  cursor.at += word.length;
  return { kind: 'text', text: word };
}

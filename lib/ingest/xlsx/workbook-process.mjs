// A workbook taken apart in a process of its own: one that is too much ends this process and not the server.
// The file comes in through stdin; what goes out is one JSON document per line (see `WorkbookLine` in workbook.ts).
import { once } from 'node:events';
import { parseWorkbook } from './parse-workbook.mjs';
import { WorkbookFault } from './workbook-fault.mjs';

/** Characters written at a time. */
const BATCH = 65_536;
/** Longest row that is handed over [characters], as for a line of text. */
const MAX_ROW = 1_048_576;

const limits = JSON.parse(process.argv[2]);
let batch = '';

try {
  const pieces = [];
  for await (const piece of process.stdin) pieces.push(piece);
  for await (const { name, rows } of parseWorkbook(Buffer.concat(pieces), limits)) {
    await put({ sheet: name });
    for (const row of rows) await put(row);
  }
  await put({ end: true });
} catch (error) {
  const known = error instanceof WorkbookFault;
  // Only what this program says itself is repeated: another's message may hold anything.
  await put({ fault: known ? { code: error.code, message: error.message } : null });
}
await flush();

async function put(line) {
  const text = JSON.stringify(line);
  batch += `${text.length > MAX_ROW ? '{"tooLong":true}' : text}\n`;
  if (batch.length >= BATCH) await flush();
}

async function flush() {
  const text = batch;
  batch = '';
  // Whoever reads at the other end sets the pace.
  if (!process.stdout.write(text)) await once(process.stdout, 'drain');
}

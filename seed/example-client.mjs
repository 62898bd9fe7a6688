// Sends a file of readings to Cleanby: CLEANBY_TOKEN=… node example-client.mjs readings.csv
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

const [file] = process.argv.slice(2);
const address = process.env.CLEANBY_ADDRESS ?? 'http://127.0.0.1:4000';

// The file is read as fast as it is taken. Sending it again does no harm: the same bytes change nothing.
const send = () =>
  fetch(`${address}/api/v1/imports?name=${encodeURIComponent(basename(file))}`, {
    method: 'POST',
    headers: { Authorization: `Bearer ${process.env.CLEANBY_TOKEN}`, 'Content-Type': 'text/csv' },
    body: createReadStream(file),
    duplex: 'half',
  });

for (let attempt = 1; ; attempt++) {
  const response = await send();
  const answer = await response.json();
  if (response.ok) {
    const { batch, read, added, replaced, unchanged, setAside } = answer;
    console.log(
      `import ${batch}: ${read} rows, ${added} added, ${replaced} replaced, ${unchanged} unchanged`,
    );
    if (setAside > 0) console.log(`${setAside} kept aside: ${address}/api/v1/imports/${batch}/set-aside`);
    break;
  }
  const isBusy = response.status === 429 || response.status === 503;
  if (!isBusy || attempt === 5) {
    for (const { field, message } of answer.errors) console.error(`${field}: ${message}`);
    throw new Error(answer.detail);
  }
  await wait(1000 * Number(response.headers.get('Retry-After') ?? 10));
}

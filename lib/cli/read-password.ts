import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';
import { AppError } from '@/lib/contract/app-error';
import { message } from './output';

/**
 * A password from the terminal, typed twice and not shown, or the first line of what is piped in. Never an argument: those can
 * be read by every program of the machine.
 *
 * @throws AppError 'invalid-input' where nothing or two different ones came
 */
export async function readPassword(): Promise<string> {
  if (process.stdin.isTTY !== true) return filled(await readLine());
  const first = filled(await askHidden('Password: '));
  if ((await askHidden('The same again: ')) === first) return first;
  throw new AppError('invalid-input', 'The two are not the same', [
    { field: 'password', message: 'run the command again and type it twice' },
  ]);
}

function filled(password: string): string {
  if (password !== '') return password;
  throw new AppError('invalid-input', 'No password was given', [
    { field: 'password', message: 'type it at the prompt, or pipe it in as one line' },
  ]);
}

function readLine(): Promise<string> {
  const lines = createInterface({ input: process.stdin });
  return new Promise((resolve) => {
    lines.once('line', (line) => {
      resolve(line);
      lines.close();
    });
    lines.once('close', () => resolve(''));
  });
}

async function askHidden(prompt: string): Promise<string> {
  process.stderr.write(prompt);
  const nowhere = new Writable({ write: (_chunk, _encoding, done) => done() });
  const lines = createInterface({ input: process.stdin, output: nowhere, terminal: true });
  try {
    return await new Promise((resolve) => lines.question('', resolve));
  } finally {
    lines.close();
    message('');
  }
}

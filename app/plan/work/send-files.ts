/** Keeps files with a cleaning, one after the other; gives what was refused, in words. */
export async function sendFiles(files: readonly File[], cleaning: number): Promise<string[]> {
  const refused: string[] = [];
  for (const file of files) {
    const query = new URLSearchParams({ cleaning: `${cleaning}`, name: file.name.slice(-120) });
    const problem = await send(file, `/api/v1/cleaning-files?${query}`);
    if (problem !== null) refused.push(`${file.name}: ${problem}`);
  }
  return refused;
}

async function send(file: File, address: string): Promise<string | null> {
  try {
    const answer = await fetch(address, { method: 'POST', body: file });
    if (answer.ok) return null;
    const { detail, errors } = (await answer.json()) as { detail: string; errors: { message: string }[] };
    return [detail, ...errors.map(({ message }) => message)].join('; ');
  } catch {
    return 'the server did not answer; add it again';
  }
}

/** The files chosen in a form; an empty field counts as one without a name. */
export function filesIn(form: FormData): File[] {
  return form.getAll('files').filter((file) => file instanceof File && file.size > 0) as File[];
}

/** Somebody without any right to files of others. */
const NOBODY = 65_534;

/** Does something without the rights of root, which no file refuses anything; anybody else has none to give up. */
export async function asStranger<T>(work: () => Promise<T>): Promise<T> {
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid!(NOBODY);
  try {
    return await work();
  } finally {
    if (isRoot) process.seteuid!(0);
  }
}

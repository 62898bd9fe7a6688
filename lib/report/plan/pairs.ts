/** Every pair of groups of which no two may be out together, each once, the tags of a pair in order. */
export function pairsOf(groups: readonly (readonly string[])[]): [string, string][] {
  const pairs = new Map<string, [string, string]>();
  for (const group of groups) {
    const tags = [...new Set(group)].sort();
    tags.forEach((first, index) => {
      for (const second of tags.slice(index + 1)) pairs.set(`${first}\n${second}`, [first, second]);
    });
  }
  return [...pairs.values()];
}

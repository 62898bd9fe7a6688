/** What a right lets somebody do, to go on after "this page is for those who may". */
const RIGHT_WORDS: Record<string, string> = {
  look: 'see the plant',
  changes: 'see who changed what',
  import: 'import readings',
  describe: 'add and describe units',
  judge: 'judge readings',
  clean: 'record cleanings',
  review: 'work through the review',
  plan: 'make plans',
  price: 'state prices',
  people: 'invite people and give roles',
  tokens: 'make tokens for programs',
};

export function rightWords(right: string): string {
  return RIGHT_WORDS[right] ?? 'do this';
}

/** What a person can be here; who may do what is in RIGHTS. */
export const ROLES = ['viewer', 'engineer', 'planner', 'manager', 'administrator'] as const;

export type Role = (typeof ROLES)[number];

/** Each right with the roles that have it. */
export const RIGHTS = {
  /** See the plant: units, results, plans, costs; evaluate readings and draft plans without storing any. */
  look: ['viewer', 'engineer', 'planner', 'manager', 'administrator'],
  /** See who changed what. */
  changes: ['engineer', 'planner', 'manager', 'administrator'],
  /** Take readings in and undo that; keep mappings. */
  import: ['engineer', 'administrator'],
  /** Add units, change datasheets, accept clean references. */
  describe: ['engineer', 'administrator'],
  /** Overrule the screening; answer falls of the fouling. */
  judge: ['engineer', 'administrator'],
  /** Record, correct and withdraw cleanings; keep files with them. */
  clean: ['engineer', 'planner', 'administrator'],
  /** Note, assign and mark lines of the weekly review. */
  review: ['engineer', 'planner', 'manager', 'administrator'],
  /** Edit the calendar, accept plans, move dated work. */
  plan: ['planner', 'administrator'],
  /** State what supplies cost and emit. */
  price: ['manager', 'administrator'],
  /** Invite people, give roles, end sessions. */
  people: ['administrator'],
  /** Make and revoke tokens. */
  tokens: ['administrator'],
} as const satisfies Record<string, readonly Role[]>;

export type Right = keyof typeof RIGHTS;

/** Rights a token can be given: what concerns accounts is left to people. */
export const TOKEN_SCOPES = (Object.keys(RIGHTS) as Right[]).filter(
  (right) => right !== 'people' && right !== 'tokens',
);

export function rightsOf(role: Role): Set<Right> {
  const all = Object.keys(RIGHTS) as Right[];
  return new Set(all.filter((right) => (RIGHTS[right] as readonly Role[]).includes(role)));
}

export function isRole(text: string): text is Role {
  return (ROLES as readonly string[]).includes(text);
}

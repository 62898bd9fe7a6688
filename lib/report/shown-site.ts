/** Which site a page shows, and whether it could not show all at once. */
export type ShownSite = {
  /** Null: all of them. */
  site: string | null;
  isOneOnly: boolean;
  sites: string[];
};

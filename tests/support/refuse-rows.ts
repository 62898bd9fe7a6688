import type { Store } from '@/lib/store/open-store';

/** Makes the database itself refuse every new row of a table. */
export async function refuseRows({ entities, provider }: Store, table: string): Promise<void> {
  if (provider === 'sqlite') {
    await entities.$executeRawUnsafe(
      `CREATE TRIGGER refuse BEFORE INSERT ON ${table} BEGIN SELECT RAISE(ABORT, 'no'); END`,
    );
    return;
  }
  await entities.$executeRawUnsafe(
    `CREATE FUNCTION refuse() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'no'; END $$`,
  );
  await entities.$executeRawUnsafe(
    `CREATE TRIGGER refuse BEFORE INSERT ON ${table} FOR EACH ROW EXECUTE FUNCTION refuse()`,
  );
}

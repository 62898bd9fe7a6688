/** What is done to a table as it is made, beyond what the schema can say. */
const AT_BIRTH: Record<string, string> = {
  // Doubles do not become smaller by compression, and are read in part: as they are, beside the row.
  daily_block: 'ALTER TABLE "daily_block" ALTER COLUMN "figures" SET STORAGE EXTERNAL;',
};

/** Tables whose rows lie in parts, and by what; the parts are made by whoever writes rows into them. */
const PARTITIONED: Record<string, string> = { reading: 'RANGE ("time")' };

/**
 * A migration of the schema engine with what Prisma's schema has no word for: text in the order of its bytes, as on SQLite and
 * whatever the database's own collation; readings in parts of a month; figures stored as they are.
 */
export function completePostgresSql(sql: string): string {
  const collated = sql.replace(/("\w+" (?:SET DATA TYPE )?TEXT)\b(?! COLLATE)/g, '$1 COLLATE "C"');
  return collated.replace(
    /CREATE TABLE "(\w+)" \(\n[\s\S]*?\n\);/g,
    (statement, table: string) =>
      (PARTITIONED[table] === undefined
        ? statement
        : statement.replace(/;$/, ` PARTITION BY ${PARTITIONED[table]};`)) +
      (AT_BIRTH[table] === undefined ? '' : `\n${AT_BIRTH[table]}`),
  );
}

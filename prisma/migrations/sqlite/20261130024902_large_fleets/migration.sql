-- AlterTable
ALTER TABLE "unit_due" ADD COLUMN "held_by" TEXT;
ALTER TABLE "unit_due" ADD COLUMN "held_until" BIGINT;

-- AlterTable
ALTER TABLE "unit_result" ADD COLUMN "summary" TEXT;
ALTER TABLE "unit_result" ADD COLUMN "telling" TEXT;

-- Daily figures are worked out from the readings: from now on in blocks. Until then every unit is due.
DROP TABLE "daily_result";
INSERT INTO "unit_due" ("unit_id", "since", "mark")
  SELECT "unit_id", 0, lower(hex(randomblob(16))) FROM "unit_result" WHERE true
  ON CONFLICT ("unit_id") DO UPDATE SET "since" = 0, "mark" = excluded."mark";

-- CreateTable
CREATE TABLE "import_batch_unit" (
    "batch_id" INTEGER NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "first_time" BIGINT NOT NULL,
    "last_time" BIGINT NOT NULL,

    PRIMARY KEY ("batch_id", "unit_id")
);

-- CreateTable
CREATE TABLE "daily_block" (
    "unit_id" INTEGER NOT NULL,
    "month" INTEGER NOT NULL,
    "figures" BLOB NOT NULL,

    PRIMARY KEY ("unit_id", "month")
);

-- CreateTable
CREATE TABLE "data_revision" (
    "name" TEXT NOT NULL PRIMARY KEY,
    "number" BIGINT NOT NULL
);

-- CreateIndex
CREATE INDEX "unit_due_since_idx" ON "unit_due"("since");

-- Rows that a later batch holds come back to an earlier one when the later is undone: their stretch counts too.
INSERT INTO "import_batch_unit" ("batch_id", "unit_id", "first_time", "last_time")
  SELECT "batch_id", "unit_id", min("time"), max("time") FROM (
    SELECT "batch_id", "unit_id", "time" FROM "reading"
    UNION ALL SELECT "previous_batch_id", "unit_id", "time" FROM "reading_before"
  ) GROUP BY "batch_id", "unit_id";

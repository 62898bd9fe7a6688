-- AlterTable
ALTER TABLE "unit_due" ADD COLUMN "held_by" TEXT;
ALTER TABLE "unit_due" ADD COLUMN "held_until" BIGINT;

-- Made anew, with the largest texts last: whoever reads a column passes over those before it.
CREATE TABLE "new_unit_result" (
    "unit_id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "as_of" DATETIME,
    "computed_at" DATETIME NOT NULL,
    "method_version" INTEGER NOT NULL,
    "unit_version" INTEGER NOT NULL,
    "nominal" INTEGER NOT NULL,
    "telling" TEXT,
    "summary" TEXT,
    "basis" TEXT NOT NULL,
    "result" TEXT NOT NULL,
    "trend" TEXT NOT NULL,
    CONSTRAINT "unit_result_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_unit_result" ("unit_id", "as_of", "computed_at", "method_version", "unit_version", "nominal", "basis", "result", "trend")
  SELECT "unit_id", "as_of", "computed_at", "method_version", "unit_version", "nominal", "basis", "result", "trend" FROM "unit_result";
DROP TABLE "unit_result";
ALTER TABLE "new_unit_result" RENAME TO "unit_result";

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
CREATE INDEX "reading_before_previous_batch_id_idx" ON "reading_before"("previous_batch_id");

-- CreateIndex
CREATE INDEX "unit_due_since_idx" ON "unit_due"("since");

-- Rows that a later batch holds come back to an earlier one when the later is undone: their stretch counts too.
INSERT INTO "import_batch_unit" ("batch_id", "unit_id", "first_time", "last_time")
  SELECT "batch_id", "unit_id", min("time"), max("time") FROM (
    SELECT "batch_id", "unit_id", "time" FROM "reading"
    UNION ALL SELECT "previous_batch_id", "unit_id", "time" FROM "reading_before"
  ) GROUP BY "batch_id", "unit_id";

-- AlterTable
ALTER TABLE "fall_answer" ADD COLUMN "cleaning_id" INTEGER;
ALTER TABLE "fall_answer" ADD COLUMN "withdrawn_at" DATETIME;
ALTER TABLE "fall_answer" ADD COLUMN "withdrawn_by" TEXT;
ALTER TABLE "fall_answer" ADD COLUMN "withdrawn_note" TEXT;

-- CreateTable
CREATE TABLE "cleaning_change" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "cleaning_id" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "duration_ms" INTEGER,
    "method" TEXT,
    "cost" REAL,
    "note" TEXT,
    "kind" TEXT NOT NULL,
    "changed_by" TEXT,
    "reason" TEXT,
    "changed_at" DATETIME NOT NULL,
    CONSTRAINT "cleaning_change_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "cleaning_change_unit_id_idx" ON "cleaning_change"("unit_id");

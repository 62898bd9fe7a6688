-- AlterTable
ALTER TABLE "daily_result" ADD COLUMN "balance" REAL;

-- CreateTable
CREATE TABLE "period_verdict" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "from_at" DATETIME NOT NULL,
    "to_at" DATETIME NOT NULL,
    "verdict" TEXT NOT NULL,
    "note" TEXT NOT NULL,
    "given_by" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    "withdrawn_at" DATETIME,
    "withdrawn_by" TEXT,
    "withdrawn_note" TEXT,
    CONSTRAINT "period_verdict_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "fall_answer" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "day" INTEGER NOT NULL,
    "answer" TEXT NOT NULL,
    "note" TEXT,
    "given_by" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    CONSTRAINT "fall_answer_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "review_mark" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "line" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "text" TEXT,
    "given_by" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    CONSTRAINT "review_mark_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "unit_statement" (
    "unit_id" INTEGER NOT NULL,
    "day" INTEGER NOT NULL,
    "computed_at" DATETIME NOT NULL,
    "method_version" INTEGER NOT NULL,
    "statement" TEXT NOT NULL,

    PRIMARY KEY ("unit_id", "day"),
    CONSTRAINT "unit_statement_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "period_verdict_unit_id_idx" ON "period_verdict"("unit_id");

-- CreateIndex
CREATE INDEX "fall_answer_unit_id_idx" ON "fall_answer"("unit_id");

-- CreateIndex
CREATE INDEX "review_mark_unit_id_line_idx" ON "review_mark"("unit_id", "line");

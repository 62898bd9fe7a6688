-- AlterTable
ALTER TABLE "outage" ADD COLUMN "crew_hours" REAL;

-- AlterTable
ALTER TABLE "site" ADD COLUMN "crew_hours_per_week" REAL;

-- CreateTable
CREATE TABLE "supply_price" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "site_id" INTEGER NOT NULL,
    "supply" TEXT NOT NULL,
    "from_day" INTEGER NOT NULL,
    "price" REAL,
    "price_per" TEXT,
    "carbon_kg" REAL,
    "carbon_per" TEXT,
    "given_by" TEXT,
    "note" TEXT,
    "created_at" DATETIME NOT NULL,
    CONSTRAINT "supply_price_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "unit_pair" (
    "first_id" INTEGER NOT NULL,
    "second_id" INTEGER NOT NULL,

    PRIMARY KEY ("first_id", "second_id"),
    CONSTRAINT "unit_pair_first_id_fkey" FOREIGN KEY ("first_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "unit_pair_second_id_fkey" FOREIGN KEY ("second_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "cleaning_plan" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "accepted_at" DATETIME NOT NULL,
    "accepted_by" TEXT NOT NULL,
    "note" TEXT,
    "request" TEXT NOT NULL,
    "result" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "planned_cleaning" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "plan_id" INTEGER NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "from_at" DATETIME NOT NULL,
    "to_at" DATETIME NOT NULL,
    "outage" TEXT,
    "method" TEXT,
    "crew_hours" REAL NOT NULL,
    "cost" REAL NOT NULL,
    "saves" REAL NOT NULL,
    "reason" TEXT NOT NULL,
    "calendar_id" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "cleaning_id" INTEGER,
    "changed_at" DATETIME NOT NULL,
    "changed_by" TEXT,
    "note" TEXT,
    CONSTRAINT "planned_cleaning_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "cleaning_plan" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "planned_cleaning_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "planned_cleaning_cleaning_id_fkey" FOREIGN KEY ("cleaning_id") REFERENCES "cleaning" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "cleaning_file" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "cleaning_id" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "content" BLOB NOT NULL,
    "added_by" TEXT,
    "added_at" DATETIME NOT NULL,
    CONSTRAINT "cleaning_file_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "supply_price_site_id_idx" ON "supply_price"("site_id");

-- CreateIndex
CREATE UNIQUE INDEX "planned_cleaning_calendar_id_key" ON "planned_cleaning"("calendar_id");

-- CreateIndex
CREATE INDEX "planned_cleaning_unit_id_idx" ON "planned_cleaning"("unit_id");

-- CreateIndex
CREATE INDEX "cleaning_file_cleaning_id_idx" ON "cleaning_file"("cleaning_id");

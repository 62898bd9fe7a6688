-- WITHOUT ROWID is ours: the key is the row's place, which makes a reading about 43 bytes and a period one stretch of the file.
-- CreateTable
CREATE TABLE "site" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "currency" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "unit" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "tag" TEXT NOT NULL,
    "site_id" INTEGER NOT NULL,
    CONSTRAINT "unit_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "unit_version" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "document" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    CONSTRAINT "unit_version_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "cleaning" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "duration_ms" INTEGER,
    "method" TEXT,
    "cost" REAL,
    "note" TEXT,
    CONSTRAINT "cleaning_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "outage" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "site_id" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "from_at" DATETIME NOT NULL,
    "to_at" DATETIME NOT NULL,
    CONSTRAINT "outage_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "import_batch" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "source" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    "read" INTEGER NOT NULL,
    "added" INTEGER NOT NULL,
    "replaced" INTEGER NOT NULL,
    "unchanged" INTEGER NOT NULL,
    "set_aside" INTEGER NOT NULL,
    "undone_at" DATETIME
);

-- CreateTable
CREATE TABLE "row_set_aside" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "batch_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "field" TEXT,
    "message" TEXT NOT NULL,
    CONSTRAINT "row_set_aside_batch_id_fkey" FOREIGN KEY ("batch_id") REFERENCES "import_batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "reading" (
    "unit_id" INTEGER NOT NULL,
    "time" BIGINT NOT NULL,
    "hot_in" REAL,
    "hot_out" REAL,
    "cold_in" REAL,
    "cold_out" REAL,
    "hot_flow" REAL,
    "cold_flow" REAL,
    "hot_pressure_drop" REAL,
    "cold_pressure_drop" REAL,
    "flow_basis" INTEGER NOT NULL,
    "batch_id" INTEGER NOT NULL,

    PRIMARY KEY ("unit_id", "time")
) WITHOUT ROWID;

-- CreateTable
CREATE TABLE "reading_before" (
    "batch_id" INTEGER NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "time" BIGINT NOT NULL,
    "hot_in" REAL,
    "hot_out" REAL,
    "cold_in" REAL,
    "cold_out" REAL,
    "hot_flow" REAL,
    "cold_flow" REAL,
    "hot_pressure_drop" REAL,
    "cold_pressure_drop" REAL,
    "flow_basis" INTEGER NOT NULL,
    "previous_batch_id" INTEGER NOT NULL,

    PRIMARY KEY ("batch_id", "unit_id", "time")
) WITHOUT ROWID;

-- CreateTable
CREATE TABLE "daily_result" (
    "unit_id" INTEGER NOT NULL,
    "day" INTEGER NOT NULL,
    "readings" INTEGER NOT NULL,
    "accepted" INTEGER NOT NULL,
    "off" INTEGER NOT NULL,
    "worst_reason" INTEGER NOT NULL,
    "first_accepted" REAL,
    "last_accepted" REAL,
    "duty" REAL,
    "overall_u" REAL,
    "clean_u" REAL,
    "fouling_resistance" REAL,
    "fouling_resistance_uncertainty" REAL,
    "fouling_resistance_systematic" REAL,
    "fouling_resistance_scatter" REAL,
    "lost_duty" REAL,
    "hot_in" REAL,
    "hot_out" REAL,
    "cold_in" REAL,
    "cold_out" REAL,
    "hot_mass_flow" REAL,
    "cold_mass_flow" REAL,
    "hot_pressure_drop" REAL,
    "cold_pressure_drop" REAL,

    PRIMARY KEY ("unit_id", "day")
) WITHOUT ROWID;

-- CreateTable
CREATE TABLE "unit_due" (
    "unit_id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "since" BIGINT NOT NULL,
    "mark" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "unit_result" (
    "unit_id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "as_of" DATETIME,
    "computed_at" DATETIME NOT NULL,
    "method_version" INTEGER NOT NULL,
    "unit_version" INTEGER NOT NULL,
    "clean_scale" REAL NOT NULL,
    "nominal" INTEGER NOT NULL,
    "result" TEXT NOT NULL,
    "trend" TEXT NOT NULL,
    CONSTRAINT "unit_result_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "site_name_key" ON "site"("name");

-- CreateIndex
CREATE UNIQUE INDEX "unit_tag_key" ON "unit"("tag");

-- CreateIndex
CREATE INDEX "unit_site_id_idx" ON "unit"("site_id");

-- CreateIndex
CREATE UNIQUE INDEX "unit_version_unit_id_number_key" ON "unit_version"("unit_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "cleaning_unit_id_at_key" ON "cleaning"("unit_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "outage_site_id_name_from_at_key" ON "outage"("site_id", "name", "from_at");

-- CreateIndex
CREATE INDEX "row_set_aside_batch_id_idx" ON "row_set_aside"("batch_id");

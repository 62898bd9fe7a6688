-- CreateTable
CREATE TABLE "clean_reference" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "from_at" DATETIME,
    "method" TEXT NOT NULL,
    "unit_version" INTEGER NOT NULL,
    "hot_factor" REAL NOT NULL,
    "wall_factor" REAL NOT NULL,
    "cold_factor" REAL NOT NULL,
    "hot_uncertainty" REAL,
    "cold_uncertainty" REAL,
    "evidence_from" DATETIME,
    "evidence_to" DATETIME,
    "readings" INTEGER,
    "accepted_by" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    CONSTRAINT "clean_reference_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_unit_result" (
    "unit_id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "as_of" DATETIME,
    "computed_at" DATETIME NOT NULL,
    "method_version" INTEGER NOT NULL,
    "unit_version" INTEGER NOT NULL,
    "basis" TEXT NOT NULL,
    "nominal" INTEGER NOT NULL,
    "result" TEXT NOT NULL,
    "trend" TEXT NOT NULL,
    CONSTRAINT "unit_result_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
-- What older results were judged by was not kept: an empty list makes the next analysis work them out anew.
INSERT INTO "new_unit_result" ("as_of", "basis", "computed_at", "method_version", "nominal", "result", "trend", "unit_id", "unit_version") SELECT "as_of", '[]', "computed_at", "method_version", "nominal", "result", "trend", "unit_id", "unit_version" FROM "unit_result";
DROP TABLE "unit_result";
ALTER TABLE "new_unit_result" RENAME TO "unit_result";
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE UNIQUE INDEX "clean_reference_unit_id_number_key" ON "clean_reference"("unit_id", "number");

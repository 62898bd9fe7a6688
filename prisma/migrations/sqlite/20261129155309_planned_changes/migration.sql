-- CreateTable
CREATE TABLE "planned_change" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "planned_id" INTEGER NOT NULL,
    "from_at" DATETIME NOT NULL,
    "to_at" DATETIME NOT NULL,
    "state" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "changed_by" TEXT,
    "reason" TEXT,
    "changed_at" DATETIME NOT NULL,
    CONSTRAINT "planned_change_planned_id_fkey" FOREIGN KEY ("planned_id") REFERENCES "planned_cleaning" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "planned_change_planned_id_idx" ON "planned_change"("planned_id");

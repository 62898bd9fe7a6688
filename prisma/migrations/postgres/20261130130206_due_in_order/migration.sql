-- DropIndex
DROP INDEX "unit_due_since_idx";

-- CreateIndex
CREATE INDEX "unit_due_since_unit_id_idx" ON "unit_due"("since", "unit_id");

-- AlterTable
ALTER TABLE "import_batch" ADD COLUMN "content_hash" TEXT;
ALTER TABLE "import_batch" ADD COLUMN "imported_by" TEXT;
ALTER TABLE "import_batch" ADD COLUMN "mapping_name" TEXT;
ALTER TABLE "import_batch" ADD COLUMN "undone_by" TEXT;

-- AlterTable
ALTER TABLE "unit_version" ADD COLUMN "created_by" TEXT;

-- CreateTable
CREATE TABLE "saved_mapping" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "document" TEXT NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 0,
    "changed_at" DATETIME NOT NULL,
    "changed_by" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "watched_file" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "folder" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "bytes" BIGINT NOT NULL,
    "modified_at" DATETIME NOT NULL,
    "content_hash" TEXT NOT NULL,
    "taken_at" DATETIME NOT NULL,
    "batch_id" INTEGER,
    "refusal" TEXT
);

-- CreateTable
CREATE TABLE "change_record" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "at" DATETIME NOT NULL,
    "actor_kind" TEXT NOT NULL,
    "actor_id" TEXT,
    "actor_name" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "subject_name" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "before" TEXT,
    "after" TEXT,
    "note" TEXT
);

-- CreateTable
CREATE TABLE "user" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "email_verified" BOOLEAN NOT NULL,
    "image" TEXT,
    "created_at" DATETIME NOT NULL,
    "updated_at" DATETIME NOT NULL,
    "role" TEXT NOT NULL,
    "disabled_at" DATETIME,
    "failed_sign_ins" INTEGER NOT NULL DEFAULT 0,
    "locked_until" DATETIME,
    "revision" INTEGER NOT NULL DEFAULT 0
);

-- CreateTable
CREATE TABLE "session" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "user_id" TEXT NOT NULL,
    "token" TEXT NOT NULL,
    "expires_at" DATETIME NOT NULL,
    "created_at" DATETIME NOT NULL,
    "updated_at" DATETIME NOT NULL,
    "ip_address" TEXT,
    "user_agent" TEXT,
    CONSTRAINT "session_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "user" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "account" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "user_id" TEXT NOT NULL,
    "account_id" TEXT NOT NULL,
    "provider_id" TEXT NOT NULL,
    "access_token" TEXT,
    "refresh_token" TEXT,
    "id_token" TEXT,
    "access_token_expires_at" DATETIME,
    "refresh_token_expires_at" DATETIME,
    "scope" TEXT,
    "password" TEXT,
    "created_at" DATETIME NOT NULL,
    "updated_at" DATETIME NOT NULL,
    CONSTRAINT "account_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "user" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "verification" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "identifier" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "expires_at" DATETIME NOT NULL,
    "created_at" DATETIME NOT NULL,
    "updated_at" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "invitation" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "email" TEXT NOT NULL,
    "name" TEXT,
    "role" TEXT NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "invited_by" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    "expires_at" DATETIME NOT NULL,
    "accepted_at" DATETIME,
    "withdrawn_at" DATETIME
);

-- CreateTable
CREATE TABLE "api_token" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "prefix" TEXT NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "scopes" TEXT NOT NULL,
    "created_by" TEXT NOT NULL,
    "created_at" DATETIME NOT NULL,
    "expires_at" DATETIME,
    "last_used_at" DATETIME,
    "revoked_at" DATETIME,
    "revoked_by" TEXT
);

-- CreateTable
CREATE TABLE "setting" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "value" TEXT NOT NULL
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_cleaning" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "unit_id" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "duration_ms" INTEGER,
    "method" TEXT,
    "cost" REAL,
    "note" TEXT,
    "revision" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "cleaning_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_cleaning" ("at", "cost", "duration_ms", "id", "method", "note", "unit_id") SELECT "at", "cost", "duration_ms", "id", "method", "note", "unit_id" FROM "cleaning";
DROP TABLE "cleaning";
ALTER TABLE "new_cleaning" RENAME TO "cleaning";
CREATE UNIQUE INDEX "cleaning_unit_id_at_key" ON "cleaning"("unit_id", "at");
CREATE TABLE "new_site" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "currency" TEXT NOT NULL,
    "crew_hours_per_week" REAL,
    "calendar_revision" INTEGER NOT NULL DEFAULT 0
);
INSERT INTO "new_site" ("crew_hours_per_week", "currency", "id", "name", "time_zone") SELECT "crew_hours_per_week", "currency", "id", "name", "time_zone" FROM "site";
DROP TABLE "site";
ALTER TABLE "new_site" RENAME TO "site";
CREATE UNIQUE INDEX "site_name_key" ON "site"("name");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE UNIQUE INDEX "saved_mapping_name_key" ON "saved_mapping"("name");

-- CreateIndex
CREATE UNIQUE INDEX "watched_file_folder_name_content_hash_key" ON "watched_file"("folder", "name", "content_hash");

-- CreateIndex
CREATE INDEX "change_record_subject_subject_name_idx" ON "change_record"("subject", "subject_name");

-- CreateIndex
CREATE INDEX "change_record_at_idx" ON "change_record"("at");

-- CreateIndex
CREATE UNIQUE INDEX "user_email_key" ON "user"("email");

-- CreateIndex
CREATE UNIQUE INDEX "session_token_key" ON "session"("token");

-- CreateIndex
CREATE INDEX "session_user_id_idx" ON "session"("user_id");

-- CreateIndex
CREATE INDEX "account_user_id_idx" ON "account"("user_id");

-- CreateIndex
CREATE INDEX "verification_identifier_idx" ON "verification"("identifier");

-- CreateIndex
CREATE UNIQUE INDEX "invitation_secret_hash_key" ON "invitation"("secret_hash");

-- CreateIndex
CREATE UNIQUE INDEX "api_token_secret_hash_key" ON "api_token"("secret_hash");

-- CreateIndex
CREATE INDEX "import_batch_content_hash_idx" ON "import_batch"("content_hash");

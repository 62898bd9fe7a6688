-- CreateTable
CREATE TABLE "site" (
    "id" SERIAL NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "time_zone" TEXT COLLATE "C" NOT NULL,
    "currency" TEXT COLLATE "C" NOT NULL,
    "crew_hours_per_week" DOUBLE PRECISION,
    "calendar_revision" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "site_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "unit" (
    "id" SERIAL NOT NULL,
    "tag" TEXT COLLATE "C" NOT NULL,
    "site_id" INTEGER NOT NULL,

    CONSTRAINT "unit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "unit_version" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "document" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "created_by" TEXT COLLATE "C",

    CONSTRAINT "unit_version_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "clean_reference" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "number" INTEGER NOT NULL,
    "from_at" TIMESTAMP(3),
    "method" TEXT COLLATE "C" NOT NULL,
    "unit_version" INTEGER NOT NULL,
    "hot_factor" DOUBLE PRECISION NOT NULL,
    "wall_factor" DOUBLE PRECISION NOT NULL,
    "cold_factor" DOUBLE PRECISION NOT NULL,
    "hot_uncertainty" DOUBLE PRECISION,
    "cold_uncertainty" DOUBLE PRECISION,
    "evidence_from" TIMESTAMP(3),
    "evidence_to" TIMESTAMP(3),
    "readings" INTEGER,
    "accepted_by" TEXT COLLATE "C" NOT NULL,
    "reason" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "clean_reference_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "cleaning" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "duration_ms" INTEGER,
    "method" TEXT COLLATE "C",
    "cost" DOUBLE PRECISION,
    "note" TEXT COLLATE "C",
    "revision" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "cleaning_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "cleaning_change" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "cleaning_id" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "duration_ms" INTEGER,
    "method" TEXT COLLATE "C",
    "cost" DOUBLE PRECISION,
    "note" TEXT COLLATE "C",
    "kind" TEXT COLLATE "C" NOT NULL,
    "changed_by" TEXT COLLATE "C",
    "reason" TEXT COLLATE "C",
    "changed_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "cleaning_change_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outage" (
    "id" SERIAL NOT NULL,
    "site_id" INTEGER NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "from_at" TIMESTAMP(3) NOT NULL,
    "to_at" TIMESTAMP(3) NOT NULL,
    "crew_hours" DOUBLE PRECISION,

    CONSTRAINT "outage_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "import_batch" (
    "id" SERIAL NOT NULL,
    "source" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "read" INTEGER NOT NULL,
    "added" INTEGER NOT NULL,
    "replaced" INTEGER NOT NULL,
    "unchanged" INTEGER NOT NULL,
    "set_aside" INTEGER NOT NULL,
    "undone_at" TIMESTAMP(3),
    "imported_by" TEXT COLLATE "C",
    "undone_by" TEXT COLLATE "C",
    "content_hash" TEXT COLLATE "C",
    "mapping_name" TEXT COLLATE "C",

    CONSTRAINT "import_batch_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "import_batch_unit" (
    "batch_id" INTEGER NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "first_time" BIGINT NOT NULL,
    "last_time" BIGINT NOT NULL,

    CONSTRAINT "import_batch_unit_pkey" PRIMARY KEY ("batch_id","unit_id")
);

-- CreateTable
CREATE TABLE "row_set_aside" (
    "id" SERIAL NOT NULL,
    "batch_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "text" TEXT COLLATE "C" NOT NULL,
    "reason" TEXT COLLATE "C" NOT NULL,
    "field" TEXT COLLATE "C",
    "message" TEXT COLLATE "C" NOT NULL,

    CONSTRAINT "row_set_aside_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "reading" (
    "unit_id" INTEGER NOT NULL,
    "time" BIGINT NOT NULL,
    "hot_in" DOUBLE PRECISION,
    "hot_out" DOUBLE PRECISION,
    "cold_in" DOUBLE PRECISION,
    "cold_out" DOUBLE PRECISION,
    "hot_flow" DOUBLE PRECISION,
    "cold_flow" DOUBLE PRECISION,
    "hot_pressure_drop" DOUBLE PRECISION,
    "cold_pressure_drop" DOUBLE PRECISION,
    "flow_basis" INTEGER NOT NULL,
    "batch_id" INTEGER NOT NULL,

    CONSTRAINT "reading_pkey" PRIMARY KEY ("unit_id","time")
) PARTITION BY RANGE ("time");

-- CreateTable
CREATE TABLE "reading_before" (
    "batch_id" INTEGER NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "time" BIGINT NOT NULL,
    "hot_in" DOUBLE PRECISION,
    "hot_out" DOUBLE PRECISION,
    "cold_in" DOUBLE PRECISION,
    "cold_out" DOUBLE PRECISION,
    "hot_flow" DOUBLE PRECISION,
    "cold_flow" DOUBLE PRECISION,
    "hot_pressure_drop" DOUBLE PRECISION,
    "cold_pressure_drop" DOUBLE PRECISION,
    "flow_basis" INTEGER NOT NULL,
    "previous_batch_id" INTEGER NOT NULL,

    CONSTRAINT "reading_before_pkey" PRIMARY KEY ("batch_id","unit_id","time")
);

-- CreateTable
CREATE TABLE "daily_block" (
    "unit_id" INTEGER NOT NULL,
    "month" INTEGER NOT NULL,
    "figures" BYTEA NOT NULL,

    CONSTRAINT "daily_block_pkey" PRIMARY KEY ("unit_id","month")
);
ALTER TABLE "daily_block" ALTER COLUMN "figures" SET STORAGE EXTERNAL;

-- CreateTable
CREATE TABLE "unit_due" (
    "unit_id" INTEGER NOT NULL,
    "since" BIGINT NOT NULL,
    "mark" TEXT COLLATE "C" NOT NULL,
    "held_by" TEXT COLLATE "C",
    "held_until" BIGINT,

    CONSTRAINT "unit_due_pkey" PRIMARY KEY ("unit_id")
);

-- CreateTable
CREATE TABLE "unit_result" (
    "unit_id" INTEGER NOT NULL,
    "as_of" TIMESTAMP(3),
    "computed_at" TIMESTAMP(3) NOT NULL,
    "method_version" INTEGER NOT NULL,
    "unit_version" INTEGER NOT NULL,
    "nominal" INTEGER NOT NULL,
    "telling" TEXT COLLATE "C",
    "summary" TEXT COLLATE "C",
    "basis" TEXT COLLATE "C" NOT NULL,
    "result" TEXT COLLATE "C" NOT NULL,
    "trend" TEXT COLLATE "C" NOT NULL,

    CONSTRAINT "unit_result_pkey" PRIMARY KEY ("unit_id")
);

-- CreateTable
CREATE TABLE "data_revision" (
    "name" TEXT COLLATE "C" NOT NULL,
    "number" BIGINT NOT NULL,

    CONSTRAINT "data_revision_pkey" PRIMARY KEY ("name")
);

-- CreateTable
CREATE TABLE "period_verdict" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "from_at" TIMESTAMP(3) NOT NULL,
    "to_at" TIMESTAMP(3) NOT NULL,
    "verdict" TEXT COLLATE "C" NOT NULL,
    "note" TEXT COLLATE "C" NOT NULL,
    "given_by" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "withdrawn_at" TIMESTAMP(3),
    "withdrawn_by" TEXT COLLATE "C",
    "withdrawn_note" TEXT COLLATE "C",

    CONSTRAINT "period_verdict_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "fall_answer" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "day" INTEGER NOT NULL,
    "answer" TEXT COLLATE "C" NOT NULL,
    "note" TEXT COLLATE "C",
    "given_by" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "cleaning_id" INTEGER,
    "withdrawn_at" TIMESTAMP(3),
    "withdrawn_by" TEXT COLLATE "C",
    "withdrawn_note" TEXT COLLATE "C",

    CONSTRAINT "fall_answer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "review_mark" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "line" TEXT COLLATE "C" NOT NULL,
    "kind" TEXT COLLATE "C" NOT NULL,
    "text" TEXT COLLATE "C",
    "given_by" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "review_mark_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "unit_statement" (
    "unit_id" INTEGER NOT NULL,
    "day" INTEGER NOT NULL,
    "computed_at" TIMESTAMP(3) NOT NULL,
    "method_version" INTEGER NOT NULL,
    "statement" TEXT COLLATE "C" NOT NULL,

    CONSTRAINT "unit_statement_pkey" PRIMARY KEY ("unit_id","day")
);

-- CreateTable
CREATE TABLE "supply_price" (
    "id" SERIAL NOT NULL,
    "site_id" INTEGER NOT NULL,
    "supply" TEXT COLLATE "C" NOT NULL,
    "from_day" INTEGER NOT NULL,
    "price" DOUBLE PRECISION,
    "price_per" TEXT COLLATE "C",
    "carbon_kg" DOUBLE PRECISION,
    "carbon_per" TEXT COLLATE "C",
    "given_by" TEXT COLLATE "C",
    "note" TEXT COLLATE "C",
    "created_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "supply_price_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "unit_pair" (
    "first_id" INTEGER NOT NULL,
    "second_id" INTEGER NOT NULL,

    CONSTRAINT "unit_pair_pkey" PRIMARY KEY ("first_id","second_id")
);

-- CreateTable
CREATE TABLE "cleaning_plan" (
    "id" SERIAL NOT NULL,
    "accepted_at" TIMESTAMP(3) NOT NULL,
    "accepted_by" TEXT COLLATE "C" NOT NULL,
    "note" TEXT COLLATE "C",
    "request" TEXT COLLATE "C" NOT NULL,
    "result" TEXT COLLATE "C" NOT NULL,

    CONSTRAINT "cleaning_plan_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "planned_cleaning" (
    "id" SERIAL NOT NULL,
    "plan_id" INTEGER NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "from_at" TIMESTAMP(3) NOT NULL,
    "to_at" TIMESTAMP(3) NOT NULL,
    "outage" TEXT COLLATE "C",
    "method" TEXT COLLATE "C",
    "crew_hours" DOUBLE PRECISION NOT NULL,
    "cost" DOUBLE PRECISION NOT NULL,
    "saves" DOUBLE PRECISION NOT NULL,
    "reason" TEXT COLLATE "C" NOT NULL,
    "calendar_id" TEXT COLLATE "C" NOT NULL,
    "revision" INTEGER NOT NULL,
    "state" TEXT COLLATE "C" NOT NULL,
    "cleaning_id" INTEGER,
    "changed_at" TIMESTAMP(3) NOT NULL,
    "changed_by" TEXT COLLATE "C",
    "note" TEXT COLLATE "C",

    CONSTRAINT "planned_cleaning_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "planned_change" (
    "id" SERIAL NOT NULL,
    "planned_id" INTEGER NOT NULL,
    "from_at" TIMESTAMP(3) NOT NULL,
    "to_at" TIMESTAMP(3) NOT NULL,
    "state" TEXT COLLATE "C" NOT NULL,
    "kind" TEXT COLLATE "C" NOT NULL,
    "changed_by" TEXT COLLATE "C",
    "reason" TEXT COLLATE "C",
    "changed_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "planned_change_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "cleaning_file" (
    "id" SERIAL NOT NULL,
    "unit_id" INTEGER NOT NULL,
    "cleaning_id" INTEGER NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "type" TEXT COLLATE "C" NOT NULL,
    "bytes" INTEGER NOT NULL,
    "content" BYTEA NOT NULL,
    "added_by" TEXT COLLATE "C",
    "added_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "cleaning_file_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "saved_mapping" (
    "id" SERIAL NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "document" TEXT COLLATE "C" NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 0,
    "changed_at" TIMESTAMP(3) NOT NULL,
    "changed_by" TEXT COLLATE "C" NOT NULL,

    CONSTRAINT "saved_mapping_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "watched_file" (
    "id" SERIAL NOT NULL,
    "folder" TEXT COLLATE "C" NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "bytes" BIGINT NOT NULL,
    "modified_at" TIMESTAMP(3) NOT NULL,
    "content_hash" TEXT COLLATE "C" NOT NULL,
    "taken_at" TIMESTAMP(3) NOT NULL,
    "batch_id" INTEGER,
    "refusal" TEXT COLLATE "C",

    CONSTRAINT "watched_file_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "change_record" (
    "id" SERIAL NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "actor_kind" TEXT COLLATE "C" NOT NULL,
    "actor_id" TEXT COLLATE "C",
    "actor_name" TEXT COLLATE "C" NOT NULL,
    "subject" TEXT COLLATE "C" NOT NULL,
    "subject_name" TEXT COLLATE "C" NOT NULL,
    "action" TEXT COLLATE "C" NOT NULL,
    "before" TEXT COLLATE "C",
    "after" TEXT COLLATE "C",
    "note" TEXT COLLATE "C",

    CONSTRAINT "change_record_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "user" (
    "id" TEXT COLLATE "C" NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "email" TEXT COLLATE "C" NOT NULL,
    "email_verified" BOOLEAN NOT NULL,
    "image" TEXT COLLATE "C",
    "created_at" TIMESTAMP(3) NOT NULL,
    "updated_at" TIMESTAMP(3) NOT NULL,
    "role" TEXT COLLATE "C" NOT NULL,
    "disabled_at" TIMESTAMP(3),
    "failed_sign_ins" INTEGER NOT NULL DEFAULT 0,
    "locked_until" TIMESTAMP(3),
    "revision" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "user_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "id" TEXT COLLATE "C" NOT NULL,
    "user_id" TEXT COLLATE "C" NOT NULL,
    "token" TEXT COLLATE "C" NOT NULL,
    "expires_at" TIMESTAMP(3) NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "updated_at" TIMESTAMP(3) NOT NULL,
    "ip_address" TEXT COLLATE "C",
    "user_agent" TEXT COLLATE "C",

    CONSTRAINT "session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "account" (
    "id" TEXT COLLATE "C" NOT NULL,
    "user_id" TEXT COLLATE "C" NOT NULL,
    "account_id" TEXT COLLATE "C" NOT NULL,
    "provider_id" TEXT COLLATE "C" NOT NULL,
    "access_token" TEXT COLLATE "C",
    "refresh_token" TEXT COLLATE "C",
    "id_token" TEXT COLLATE "C",
    "access_token_expires_at" TIMESTAMP(3),
    "refresh_token_expires_at" TIMESTAMP(3),
    "scope" TEXT COLLATE "C",
    "password" TEXT COLLATE "C",
    "created_at" TIMESTAMP(3) NOT NULL,
    "updated_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "account_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "verification" (
    "id" TEXT COLLATE "C" NOT NULL,
    "identifier" TEXT COLLATE "C" NOT NULL,
    "value" TEXT COLLATE "C" NOT NULL,
    "expires_at" TIMESTAMP(3) NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "updated_at" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "verification_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "invitation" (
    "id" SERIAL NOT NULL,
    "email" TEXT COLLATE "C" NOT NULL,
    "name" TEXT COLLATE "C",
    "role" TEXT COLLATE "C" NOT NULL,
    "secret_hash" TEXT COLLATE "C" NOT NULL,
    "invited_by" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "expires_at" TIMESTAMP(3) NOT NULL,
    "accepted_at" TIMESTAMP(3),
    "withdrawn_at" TIMESTAMP(3),

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "api_token" (
    "id" SERIAL NOT NULL,
    "name" TEXT COLLATE "C" NOT NULL,
    "prefix" TEXT COLLATE "C" NOT NULL,
    "secret_hash" TEXT COLLATE "C" NOT NULL,
    "scopes" TEXT COLLATE "C" NOT NULL,
    "created_by" TEXT COLLATE "C" NOT NULL,
    "created_at" TIMESTAMP(3) NOT NULL,
    "expires_at" TIMESTAMP(3),
    "last_used_at" TIMESTAMP(3),
    "revoked_at" TIMESTAMP(3),
    "revoked_by" TEXT COLLATE "C",

    CONSTRAINT "api_token_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "setting" (
    "key" TEXT COLLATE "C" NOT NULL,
    "value" TEXT COLLATE "C" NOT NULL,

    CONSTRAINT "setting_pkey" PRIMARY KEY ("key")
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
CREATE UNIQUE INDEX "clean_reference_unit_id_number_key" ON "clean_reference"("unit_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "cleaning_unit_id_at_key" ON "cleaning"("unit_id", "at");

-- CreateIndex
CREATE INDEX "cleaning_change_unit_id_idx" ON "cleaning_change"("unit_id");

-- CreateIndex
CREATE UNIQUE INDEX "outage_site_id_name_from_at_key" ON "outage"("site_id", "name", "from_at");

-- CreateIndex
CREATE INDEX "import_batch_content_hash_idx" ON "import_batch"("content_hash");

-- CreateIndex
CREATE INDEX "row_set_aside_batch_id_idx" ON "row_set_aside"("batch_id");

-- CreateIndex
CREATE INDEX "reading_before_previous_batch_id_idx" ON "reading_before"("previous_batch_id");

-- CreateIndex
CREATE INDEX "unit_due_since_idx" ON "unit_due"("since");

-- CreateIndex
CREATE INDEX "period_verdict_unit_id_idx" ON "period_verdict"("unit_id");

-- CreateIndex
CREATE INDEX "fall_answer_unit_id_idx" ON "fall_answer"("unit_id");

-- CreateIndex
CREATE INDEX "review_mark_unit_id_line_idx" ON "review_mark"("unit_id", "line");

-- CreateIndex
CREATE INDEX "supply_price_site_id_idx" ON "supply_price"("site_id");

-- CreateIndex
CREATE UNIQUE INDEX "planned_cleaning_calendar_id_key" ON "planned_cleaning"("calendar_id");

-- CreateIndex
CREATE INDEX "planned_cleaning_unit_id_idx" ON "planned_cleaning"("unit_id");

-- CreateIndex
CREATE INDEX "planned_change_planned_id_idx" ON "planned_change"("planned_id");

-- CreateIndex
CREATE INDEX "cleaning_file_cleaning_id_idx" ON "cleaning_file"("cleaning_id");

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

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit_version" ADD CONSTRAINT "unit_version_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "clean_reference" ADD CONSTRAINT "clean_reference_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "cleaning" ADD CONSTRAINT "cleaning_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "cleaning_change" ADD CONSTRAINT "cleaning_change_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outage" ADD CONSTRAINT "outage_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "row_set_aside" ADD CONSTRAINT "row_set_aside_batch_id_fkey" FOREIGN KEY ("batch_id") REFERENCES "import_batch"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit_result" ADD CONSTRAINT "unit_result_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "period_verdict" ADD CONSTRAINT "period_verdict_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "fall_answer" ADD CONSTRAINT "fall_answer_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "review_mark" ADD CONSTRAINT "review_mark_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit_statement" ADD CONSTRAINT "unit_statement_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "supply_price" ADD CONSTRAINT "supply_price_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit_pair" ADD CONSTRAINT "unit_pair_first_id_fkey" FOREIGN KEY ("first_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit_pair" ADD CONSTRAINT "unit_pair_second_id_fkey" FOREIGN KEY ("second_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_cleaning" ADD CONSTRAINT "planned_cleaning_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "cleaning_plan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_cleaning" ADD CONSTRAINT "planned_cleaning_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_cleaning" ADD CONSTRAINT "planned_cleaning_cleaning_id_fkey" FOREIGN KEY ("cleaning_id") REFERENCES "cleaning"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "planned_change" ADD CONSTRAINT "planned_change_planned_id_fkey" FOREIGN KEY ("planned_id") REFERENCES "planned_cleaning"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "cleaning_file" ADD CONSTRAINT "cleaning_file_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "user"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "account" ADD CONSTRAINT "account_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "user"("id") ON DELETE CASCADE ON UPDATE CASCADE;

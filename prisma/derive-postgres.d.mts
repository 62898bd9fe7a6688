export const POSTGRES_SCHEMA: string;
export function derivePostgresSchema(source?: string): string;
export function writePostgresSchema(): void;

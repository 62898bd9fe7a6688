import type { PrismaClient } from '@/generated/sqlite/client';

/** A setting of this installation; the first to ask for one that is not there makes it. */
export async function readSetting(entities: PrismaClient, key: string, make: () => string): Promise<string> {
  const { value } = await entities.setting.upsert({
    where: { key },
    create: { key, value: make() },
    update: {},
  });
  return value;
}

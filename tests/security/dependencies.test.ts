import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

type Package = {
  version: string;
  integrity?: string;
  hasInstallScript?: boolean;
  dev?: boolean;
  license?: string;
  link?: boolean;
};

const ROOT = join(import.meta.dirname, '../..');
const read = (name: string) => JSON.parse(readFileSync(join(ROOT, name), 'utf8'));
const manifest = read('package.json') as {
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
  allowScripts: Record<string, boolean>;
};
const locked = Object.entries((read('package-lock.json') as { packages: Record<string, Package> }).packages)
  .filter(([path]) => path !== '')
  .map(([path, entry]) => ({ name: path.split('node_modules/').at(-1)!, ...entry }));

/** Licences under which anybody may use and pass on what is installed, and those of parts that stay as they are. */
const LICENCES =
  /^\(?(MIT|ISC|Apache-2\.0|BSD-[23]-Clause|0BSD|BlueOak-1\.0\.0|CC-BY-4\.0|CC0-1\.0|OFL-1\.1|Unlicense|MPL-2\.0|EPL-2\.0|LGPL-3\.0-or-later|Python-2\.0|WTFPL)\b/;

describe('installed packages', () => {
  it('are pinned, and what they hold is known by its hash', () => {
    const versions = Object.values({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(versions.filter((version) => !/^\d+\.\d+\.\d+[\w.-]*$/.test(version))).toEqual([]);
    expect(locked.filter(({ integrity, link }) => integrity === undefined && link !== true)).toEqual([]);
  });

  it('run a script when they are installed only where that was decided', () => {
    const running = locked.filter(({ hasInstallScript }) => hasInstallScript).map(({ name }) => name);
    expect([...new Set(running)].sort()).toEqual(Object.keys(manifest.allowScripts).sort());
  });

  it('may be used and passed on', () => {
    const others = locked.filter(({ dev, license }) => dev !== true && !LICENCES.test(license ?? ''));
    // The first is BSD with a clause on the UCUM tables, the second is MIT by its own file.
    expect(others.map(({ name }) => name).sort()).toEqual(['@lhncbc/ucum-lhc', 'seq-queue']);
  });
});

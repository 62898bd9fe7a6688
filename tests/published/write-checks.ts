import { writeFileSync } from 'node:fs';
import { checksPage } from './checks/page';
import { allSubjects } from './checks/subjects';

/** Writes `CHECKS.md` beside this file: run after a change of the core, of a check or of the data. */
const PAGE = new URL('CHECKS.md', import.meta.url);
writeFileSync(PAGE, checksPage(allSubjects()));
console.log('wrote tests/published/CHECKS.md');

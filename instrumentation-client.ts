import { config } from 'zod';

// Schemas are checked step by step in a browser: the policy of pages forbids to compile them by `new Function`, and a try at it
// would be reported as a breach.
config({ jitless: true });

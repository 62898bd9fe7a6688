/** @type {import('next').NextConfig} */
export default {
  // Native and WebAssembly modules stay outside the bundle.
  serverExternalPackages: ['better-sqlite3', '@prisma/adapter-better-sqlite3', '@prisma/client', 'pino'],
  poweredByHeader: false,
  // `npm run check` and `npm test` check the types of everything, tests included; a build need not do so again.
  typescript: { ignoreBuildErrors: true },
};

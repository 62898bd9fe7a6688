/** What every answer says to a browser: pages, routes, files of the build, refusals and what is not found alike. */
const EVERYWHERE = [
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'X-Frame-Options', value: 'DENY' },
  // Not no-referrer: under that a form of our own would be sent with the origin "null".
  { key: 'Referrer-Policy', value: 'same-origin' },
  { key: 'Cross-Origin-Opener-Policy', value: 'same-origin' },
  { key: 'Cross-Origin-Resource-Policy', value: 'same-origin' },
  {
    key: 'Permissions-Policy',
    value:
      'accelerometer=(), autoplay=(), camera=(), display-capture=(), geolocation=(), gyroscope=(), magnetometer=(), ' +
      'microphone=(), midi=(), payment=(), publickey-credentials-get=(), screen-wake-lock=(), serial=(), usb=(), ' +
      'clipboard-read=(), clipboard-write=(self)',
  },
];

/** Answers of routes are data: nothing in them runs or loads, and a file opened by itself stays without an origin. */
const INERT = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox";

/** @type {import('next').NextConfig} */
export default {
  // Native and WebAssembly modules, and the drivers of databases, stay outside the bundle.
  serverExternalPackages: [
    'better-sqlite3',
    '@prisma/adapter-better-sqlite3',
    '@prisma/adapter-pg',
    '@prisma/client',
    'pg',
    'pg-copy-streams',
    'pino',
  ],
  poweredByHeader: false,
  // `cleanby serve` compresses whatever it sends.
  compress: false,
  // A page asked for without the right answers 403 by forbidden().
  experimental: { authInterrupts: true },
  // `npm run check` and `npm test` check the types of everything, tests included; a build need not do so again.
  typescript: { ignoreBuildErrors: true },
  // Pages get their policy with a nonce of their own in proxy.ts.
  headers: async () => [
    { source: '/:path*', headers: EVERYWHERE },
    { source: '/api/:path*', headers: [{ key: 'Content-Security-Policy', value: INERT }] },
  ],
};

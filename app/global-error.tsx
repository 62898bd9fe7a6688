'use client';

import './ui/theme.css';

/** In place of everything, where even the frame of the pages failed. */
export default function EverythingFailed({ error }: { error: Error & { digest?: string } }) {
  return (
    <html lang="en-GB">
      <body>
        <main>
          <h1>Cleanby cannot be shown</h1>
          <p>
            The fault is ours; the log of the server tells more
            {error.digest === undefined ? '' : ` under number ${error.digest}`}. Load the page again in a
            moment.
          </p>
        </main>
      </body>
    </html>
  );
}

'use client';

import { Button } from '@/app/ui/button/button';

/** Opens the browser's own print dialogue. */
export function PrintButton() {
  return (
    <span className="screen-only">
      <Button onClick={() => window.print()}>Print</Button>
    </span>
  );
}

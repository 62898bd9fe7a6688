'use client';

import { Button, ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';

type Fault = { error: Error & { digest?: string }; reset: () => void };

/** In place of a page that failed: what happened is in the log of the server, under a number both know. */
export default function PageFailed({ error, reset }: Fault) {
  return (
    <Empty
      title="This page could not be shown"
      actions={
        <>
          <Button onClick={reset}>Try again</Button>
          <ButtonLink href="/">To the fleet</ButtonLink>
        </>
      }
    >
      <p>
        The fault is ours; nothing you entered is changed by it.
        {error.digest === undefined
          ? null
          : ` The log of the server tells more under number ${error.digest}.`}
      </p>
    </Empty>
  );
}

import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';

export default function UnitNotFound() {
  return (
    <Empty
      title="There is no unit with this tag"
      actions={
        <>
          <ButtonLink href="/">Find it in the fleet</ButtonLink>
          <ButtonLink href="/new-unit">Add a unit</ButtonLink>
        </>
      }
    >
      <p>
        Tags are taken letter by letter, capitals included. It may have been renamed, or not be registered
        yet.
      </p>
    </Empty>
  );
}

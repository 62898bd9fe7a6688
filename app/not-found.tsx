import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';

export default function NotFound() {
  return (
    <Empty title="There is no such page" actions={<ButtonLink href="/">To the fleet</ButtonLink>}>
      <p>The address may have been mistyped, or what it showed is no longer there.</p>
    </Empty>
  );
}

import { pageRule } from '@/lib/auth/rules';
import { rightWords } from '@/lib/report/people/right-words';
import { askedFor, readVisitor } from './access/open-page';
import { ButtonLink } from './ui/button/button';
import { Empty } from './ui/empty/empty';

/** What somebody sees who opens a page without the right to: which right that is, and who gives it. */
export default async function Forbidden() {
  const [path, visitor] = await Promise.all([askedFor(), readVisitor()]);
  const right = pageRule(path.split('?')[0]!) ?? '';
  return (
    <Empty title="This page is not open to you" actions={<ButtonLink href="/">To the fleet</ButtonLink>}>
      <p>
        It is for those who may {rightWords(right)} (the right “{right}”).
        {visitor === null ? null : ` You are signed in as ${visitor.actor.name}, ${visitor.role}.`} An
        administrator gives roles.
      </p>
    </Empty>
  );
}

import { Notice } from '@/app/ui/notice/notice';
import type { FormAnswer } from './form-answer';

/** What became of a form, above it; faults that `shownAtFields` does not name stand here in full. */
export function AnswerNotice({ answer, shownAtFields }: { answer: FormAnswer; shownAtFields: string[] }) {
  if (answer.kind === 'none') return null;
  if (answer.kind === 'done') return <Notice kind="done">{answer.message}</Notice>;
  const rest = Object.entries(answer.errors).filter(([field]) => !shownAtFields.includes(field));
  return (
    <Notice kind="problem" title={answer.message}>
      {rest.map(([field, message]) => (
        <p key={field}>{sentence(message)}</p>
      ))}
    </Notice>
  );
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${text.endsWith('.') ? '' : '.'}`;
}

import { Button, ButtonLink } from '@/app/ui/button/button';
import type { ChangesView } from '@/lib/report/changes/changes-view';
import styles from './changes.module.css';

const PEOPLE = 'changers';
const THINGS = 'things';

/** Who, what, of which unit, since when: asked for in the address. */
export function ChangesFilter({ view }: { view: ChangesView }) {
  const { query, people, tags, subjects, actions, isFiltered } = view;
  return (
    <search aria-label="Which changes">
      <form className={`${styles.filter} screen-only`} method="get" key={JSON.stringify(query)}>
        <label>
          Unit, site or file
          <input name="name" list={THINGS} defaultValue={query.name} maxLength={120} autoComplete="off" />
        </label>
        <datalist id={THINGS}>
          {tags.map((tag) => (
            <option key={tag} value={tag} />
          ))}
        </datalist>
        <label>
          Who
          <input name="who" list={PEOPLE} defaultValue={query.who} maxLength={120} autoComplete="off" />
        </label>
        <datalist id={PEOPLE}>
          {people.map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
        <Choice name="subject" label="What" chosen={query.subject} choices={subjects} />
        <Choice name="action" label="What became of it" chosen={query.action} choices={actions} />
        <label>
          First day
          <input type="date" name="from" defaultValue={query.from} />
        </label>
        <label>
          Last day
          <input type="date" name="to" defaultValue={query.to} />
        </label>
        <Button type="submit">Show</Button>
        {isFiltered ? (
          <ButtonLink href="/changes" weight="quiet">
            Show all
          </ButtonLink>
        ) : null}
      </form>
    </search>
  );
}

type ChoiceProps = { name: string; label: string; chosen?: string; choices: ChangesView['subjects'] };

function Choice({ name, label, chosen, choices }: ChoiceProps) {
  return (
    <label>
      {label}
      <select name={name} defaultValue={chosen ?? ''}>
        <option value="">all</option>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </label>
  );
}

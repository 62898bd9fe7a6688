import { Table } from '@/app/ui/table/table';
import type { OperationView } from '@/lib/report/api/reference-view';
import styles from './reference.module.css';

/** One operation: what it does, what it takes, what it answers. */
export function OperationPart({ operation }: { operation: OperationView }) {
  const { id, method, path, summary, description, parameters, takes, answers, refusals } = operation;
  return (
    <article id={id} className={styles.operation} aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>
        <code>
          <span className={styles.method}>{method}</span> {path}
        </code>
      </h3>
      <p>
        <strong>{summary}.</strong> {description}
      </p>
      {parameters.length === 0 ? null : <Parameters id={id} rows={parameters} />}
      <dl className={styles.kinds}>
        {takes.length === 0 ? null : <Kinds title="Takes" kinds={takes} />}
        <Kinds title="Answers" kinds={answers} />
        <div>
          <dt>Refuses with</dt>
          <dd>{refusals}</dd>
        </div>
      </dl>
    </article>
  );
}

function Parameters({ id, rows }: { id: string; rows: OperationView['parameters'] }) {
  return (
    <Table
      caption={`Parameters of ${id}`}
      columns={[
        { key: 'name', head: 'Parameter' },
        { key: 'place', head: 'In' },
        { key: 'kind', head: 'Kind' },
        { key: 'note', head: 'Meaning' },
      ]}
      rowHead="name"
      rows={rows.map(({ name, place, kind, isRequired, note }) => ({
        key: name,
        cells: { name: <code>{name + (isRequired ? '' : '?')}</code>, place, kind, note },
      }))}
    />
  );
}

function Kinds({ title, kinds }: { title: string; kinds: OperationView['takes'] }) {
  return (
    <div>
      <dt>{title}</dt>
      <dd>
        {kinds.map(({ type, schema }) => (
          <span key={type} className={styles.kind}>
            <code>{type}</code> {schema === null ? null : <a href={`#document-${schema}`}>{schema}</a>}
          </span>
        ))}
      </dd>
    </div>
  );
}

import Link from 'next/link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { ReferenceView } from '@/lib/report/api/reference-view';
import { OperationPart } from './operation-part';
import styles from './reference.module.css';

type Props = { view: ReferenceView; scopes: Record<string, string>; client: string };

/** The HTTP API to read: how to begin, every operation, every document. */
export function ReferenceScreen({ view, scopes, client }: Props) {
  return (
    <>
      <PageHeader title="HTTP API">
        <p>
          The verbs of Cleanby for other programs, as JSON. The same as an OpenAPI 3.1 document:{' '}
          <a href="/api/v1/openapi.json">openapi.json</a>.
        </p>
      </PageHeader>
      <Contents groups={view.groups} />
      <Beginning scopes={scopes} />
      <Section
        id="example"
        title="An example"
        lead={<p>Sends a file of readings with Node alone, waits where it is told to, prints the report.</p>}
      >
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard (WCAG 2.1.1) */}
        <section className={styles.code} tabIndex={0} aria-label="Example of a program">
          <pre>
            <code>{client}</code>
          </pre>
        </section>
      </Section>
      {view.groups.map((group) => (
        <Section key={group.id} id={group.id} title={group.name}>
          {group.operations.map((operation) => (
            <OperationPart key={operation.id} operation={operation} />
          ))}
        </Section>
      ))}
      <Problems rows={view.problems} />
      <Documents schemas={view.schemas} />
    </>
  );
}

function Contents({ groups }: Pick<ReferenceView, 'groups'>) {
  return (
    <nav className={styles.contents} aria-label="On this page">
      <a href="#begin">To begin with</a>
      <a href="#example">An example</a>
      {groups.map(({ id, name }) => (
        <a key={id} href={`#${id}`}>
          {name}
        </a>
      ))}
      <a href="#problems">Refusals</a>
      <a href="#documents">Documents</a>
    </nav>
  );
}

function Beginning({ scopes }: { scopes: Record<string, string> }) {
  return (
    <Section id="begin" title="To begin with">
      <div className={styles.prose}>
        <p>
          A program shows a token with every request: <code>Authorization: Bearer TOKEN</code>. An
          administrator makes it under <Link href="/tokens">Tokens</Link>, or by{' '}
          <code>npx cleanby token add</code>. Each right is given on its own:
        </p>
        <dl className={styles.scopes}>
          {Object.entries(scopes).map(([scope, words]) => (
            <div key={scope}>
              <dt>
                <code>{scope}</code>
              </dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
        <p>
          Quantities are sent as <code>{'{"value": 12.5, "unit": "m3/h"}'}</code> with UCUM units; answers are
          plain numbers in SI, temperatures in °C. Times are ISO 8601 with offset. Where equipment, its
          readings to evaluate and plans are described, fields nobody knows are refused rather than dropped,
          and the name that was meant is offered.
        </p>
        <p>
          So many requests a minute are let through; <code>RateLimit</code> and <code>RateLimit-Policy</code>{' '}
          say how it stands (draft-ietf-httpapi-ratelimit-headers-10), and with 429 and 503{' '}
          <code>Retry-After</code> says when to ask again. <code>X-Request-Id</code> names a request in the
          log of the server.
        </p>
      </div>
    </Section>
  );
}

function Problems({ rows }: { rows: ReferenceView['problems'] }) {
  return (
    <Section
      id="problems"
      title="Refusals"
      lead={
        <p>
          Problem documents of RFC 9457: <a href="#document-Problem">Problem</a>. Any operation can answer
          with 500 where the fault is ours.
        </p>
      }
    >
      <Table
        caption="Types of problems"
        columns={[
          { key: 'type', head: 'Type' },
          { key: 'status', head: 'Status', isNumber: true },
          { key: 'title', head: 'What it says' },
        ]}
        rowHead="type"
        rows={rows.map(({ type, status, title }) => ({
          key: type,
          cells: { type: <code>urn:cleanby:problem:{type}</code>, status, title },
        }))}
      />
    </Section>
  );
}

function Documents({ schemas }: Pick<ReferenceView, 'schemas'>) {
  return (
    <Section
      id="documents"
      title="Documents"
      lead={<p>What is sent and answered. A question mark: may be left out.</p>}
    >
      {schemas.map(({ name, description, lines }) => (
        <details key={name} className={styles.document}>
          <summary>
            <code>{name}</code>{' '}
            {description === '' ? null : <span className={styles.faint}>{description}</span>}
          </summary>
          {/* A link to what is inside opens it; one to the whole would not. */}
          <table id={`document-${name}`} className={styles.shape}>
            <caption className="unseen">Fields of {name}</caption>
            <tbody>
              {lines.map((line, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: lines never move
                <tr key={index}>
                  <td>
                    <code>{line.text}</code>
                  </td>
                  <td>{line.note}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      ))}
    </Section>
  );
}

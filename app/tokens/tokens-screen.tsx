import Link from 'next/link';
import { RowCards } from '@/app/people/row-cards';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { TokensView } from '@/lib/report/tokens/tokens-view';
import { RevokeForm } from './revoke-form';
import { TokenForm } from './token-form';
import styles from './tokens.module.css';

/** Keys by which programs use the HTTP API: those that hold, a form for a new one, and those that did hold. */
export function TokensScreen({ view }: { view: TokensView }) {
  return (
    <>
      <Breadcrumb>
        <Link href="/people">People</Link> / Tokens
      </Breadcrumb>
      <PageHeader title="Tokens">
        <p>
          A program that sends readings or reads results shows a token in place of signing in.{' '}
          <Link href="/api-reference">The HTTP API</Link> says what it can ask for.
        </p>
      </PageHeader>
      <Section
        id="add"
        title="Make a token"
        lead={<p>One for each program, with no more than it needs: each can then be revoked alone.</p>}
      >
        <TokenForm scopes={view.scopes} expiries={view.expiries} usualExpiry={view.usualExpiry} />
      </Section>
      <Section id="holding" title={`In force: ${view.holding.length}`}>
        {view.holding.length === 0 ? (
          <p className={styles.none}>No program has a token yet.</p>
        ) : (
          <Holding rows={view.holding} />
        )}
      </Section>
      {view.over.length === 0 ? null : (
        <Section id="over" title={`No longer in force: ${view.over.length}`}>
          <Over rows={view.over} />
        </Section>
      )}
    </>
  );
}

type Lines = { rows: TokensView['holding'] };

function Holding({ rows }: Lines) {
  return (
    <RowCards
      caption="Tokens in force"
      columns={[
        { key: 'name', head: 'Program' },
        { key: 'beginning', head: 'Begins with' },
        { key: 'scopes', head: 'May' },
        { key: 'used', head: 'Last used' },
        { key: 'ends', head: 'Ends' },
        { key: 'made', head: 'Made' },
        { key: 'revoke', head: <span className="unseen">Revoke</span> },
      ]}
      rowHead="name"
      rows={rows.map((row) => ({
        key: String(row.id),
        cells: {
          name: row.name,
          beginning: <code>{row.beginning}</code>,
          scopes: row.scopes.join(', '),
          used: row.used,
          ends: row.endsSoon ? <strong>{row.ends}: make its successor</strong> : row.ends,
          made: row.made,
          revoke: <RevokeForm id={row.id} name={row.name} />,
        },
      }))}
    />
  );
}

function Over({ rows }: Lines) {
  return (
    <RowCards
      caption="Tokens no longer in force"
      columns={[
        { key: 'name', head: 'Program' },
        { key: 'beginning', head: 'Begins with' },
        { key: 'scopes', head: 'Could' },
        { key: 'used', head: 'Last used' },
        { key: 'over', head: 'Why' },
        { key: 'made', head: 'Made' },
      ]}
      rowHead="name"
      rows={rows.map((row) => ({
        key: String(row.id),
        cells: {
          name: row.name,
          beginning: <code>{row.beginning}</code>,
          scopes: row.scopes.join(', '),
          used: row.used,
          over: row.over,
          made: row.made,
        },
      }))}
    />
  );
}

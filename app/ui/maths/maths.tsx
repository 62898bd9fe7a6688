import { Fragment, type ReactNode } from 'react';
import styles from './maths.module.css';
import { type MathsNode, parseMaths } from './parse-maths';

/** A formula set as people write it: real subscripts, superscripts and fractions, which read in order aloud. */
export function Maths({ text }: { text: string }) {
  return <span className={styles.maths}>{row(parseMaths(text))}</span>;
}

function row(nodes: MathsNode[]): ReactNode {
  // biome-ignore lint/suspicious/noArrayIndexKey: a formula never changes its order
  return nodes.map((node, index) => <Fragment key={index}>{set(node)}</Fragment>);
}

function set(node: MathsNode): ReactNode {
  switch (node.kind) {
    case 'text':
      return node.text;
    case 'sub':
      return (
        <>
          {set(node.base)}
          <sub>{row(node.script)}</sub>
        </>
      );
    case 'sup':
      return (
        <>
          {set(node.base)}
          <sup>{row(node.script)}</sup>
        </>
      );
    case 'fraction':
      return (
        <span className={styles.fraction}>
          <span className={styles.above}>{row(node.above)}</span>
          <span className="unseen"> over </span>
          <span className={styles.below}>{row(node.below)}</span>
        </span>
      );
    case 'root':
      return (
        <>
          √(<span>{row(node.under)}</span>)
        </>
      );
  }
}

import type { CellLook } from './plain-sheet';

type Style = {
  fontWeight?: 'bold';
  fontStyle?: 'italic';
  fontSize?: number;
  textColor?: string;
  backgroundColor?: string;
  wrap?: boolean;
  alignVertical?: 'top' | 'center' | 'bottom';
  /** `@`: text, which a spreadsheet makes no date or number of. */
  format?: '@';
};

const HEAD = { fontWeight: 'bold', wrap: true, alignVertical: 'top' } as const;
const LIGHT = '#dbe7ef';
const REQUIRED = '#ffe9b8';
const FAINT = '#eef2f5';
const GREY = '#6b7780';

export const LOOKS: Record<CellLook, Style> = {
  title: { fontWeight: 'bold', fontSize: 14 },
  lead: { textColor: GREY },
  group: { fontWeight: 'bold', backgroundColor: FAINT },
  heading: { ...HEAD, backgroundColor: LIGHT },
  required: { ...HEAD, backgroundColor: REQUIRED },
  unit: { fontStyle: 'italic', backgroundColor: FAINT },
  example: { fontStyle: 'italic', textColor: GREY },
  plain: {},
  text: { format: '@' },
  long: { wrap: true, alignVertical: 'top' },
};

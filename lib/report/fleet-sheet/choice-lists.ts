import type { Feature } from 'write-excel-file/node';
import {
  getCellAddress,
  getClosingTagMarkup,
  getOpeningTagMarkup,
  getOrderOfSiblings,
  getSelfClosingTagMarkup,
  insertElementMarkupAccordingToOrderOfSiblings,
  sanitizeTextContent,
} from 'write-excel-file/utility';
import type { CellChoices, PlainSheet } from './plain-sheet';

const SHEET_FILE = 'xl/worksheets/sheet{id}.xml';
/** Longest list of words a spreadsheet takes in place (ECMA-376 part 1, 18.3.1.33). */
const LONGEST_LIST = 255;

/**
 * Lists of words to choose from, and what a column means beside its cells (ECMA-376 part 1, 18.3.1.32 and .33): the writer of
 * workbooks has none of its own, but lets others add to its files.
 */
export function choiceLists<FileContent>(sheets: PlainSheet[]): Feature<FileContent> {
  return {
    files: {
      transform: {
        [SHEET_FILE]: {
          transform: (xml, _options, { sheetIndex }) => {
            const { choices } = sheets[sheetIndex]!;
            return choices.length === 0 ? xml : withChoices(xml, choices);
          },
        },
      },
    },
  };
}

function withChoices(xml: string, choices: CellChoices[]): string {
  const markup =
    getOpeningTagMarkup('dataValidations', { count: choices.length }) +
    choices.map(validation).join('') +
    getClosingTagMarkup('dataValidations');
  const order = getOrderOfSiblings(SHEET_FILE, 'worksheet')!;
  return insertElementMarkupAccordingToOrderOfSiblings(xml, markup, order, 'worksheet');
}

function validation({ column, rows: [first, last], words, title, prompt, isStrict }: CellChoices): string {
  const list = words.join(',');
  const hasList = list !== '' && list.length <= LONGEST_LIST;
  const attributes = {
    ...(hasList ? { type: 'list', showErrorMessage: isStrict ? 1 : 0 } : {}),
    allowBlank: 1,
    ...(prompt === ''
      ? {}
      : {
          showInputMessage: 1,
          promptTitle: title,
          prompt: prompt,
        }),
    sqref: `${getCellAddress(first - 1, column)}:${getCellAddress(last - 1, column)}`,
  };
  if (!hasList) return getSelfClosingTagMarkup('dataValidation', attributes);
  const formula =
    getOpeningTagMarkup('formula1') + sanitizeTextContent(`"${list}"`) + getClosingTagMarkup('formula1');
  return getOpeningTagMarkup('dataValidation', attributes) + formula + getClosingTagMarkup('dataValidation');
}

import { crc32, deflateRawSync } from 'node:zlib';

export type ZipPart = {
  name: string;
  content: Uint8Array | string;
  /** What the archive declares, where that is a lie. */
  declares?: number;
  flags?: number;
  method?: number;
};

/** A zip archive, written apart from the code that reads it (APPNOTE.TXT 6.3.10, 4.3). */
export function zipFile(parts: ZipPart[]): Buffer {
  const files: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { name, content, declares, flags = 0, method = 8 } of parts) {
    const plain = Buffer.from(content as string);
    const packed = deflateRawSync(plain, { level: 9 });
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(flags, 2);
    common.writeUInt16LE(method, 4);
    common.writeUInt32LE(crc32(plain), 10);
    common.writeUInt32LE(packed.length, 14);
    common.writeUInt32LE(declares ?? plain.length, 18);
    common.writeUInt16LE(name.length, 22);
    const file = Buffer.concat([Buffer.from('PK\x03\x04'), common, Buffer.from(name), packed]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(offset, 10);
    directory.push(
      Buffer.concat([Buffer.from('PK\x01\x02'), Buffer.from([20, 0]), common, tail, Buffer.from(name)]),
    );
    files.push(file);
    offset += file.length;
  }
  const entries = Buffer.concat(directory);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(parts.length, 4);
  end.writeUInt16LE(parts.length, 6);
  end.writeUInt32LE(entries.length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...files, entries, Buffer.from('PK\x05\x06'), end]);
}

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships';
const HEAD = '<?xml version="1.0" encoding="UTF-8"?>';

/** The parts of a workbook whose sheets are these pieces of XML (ECMA-376 part 1, 18.2 and 18.3); style 1 is a date. */
export function workbookParts(sheets: string[], { uses1904 = false } = {}): ZipPart[] {
  const each = (xml: (number: number) => string) => sheets.map((_, i) => xml(i + 1)).join('');
  return [
    { name: '[Content_Types].xml', content: `${HEAD}<Types/>` },
    {
      name: 'xl/workbook.xml',
      content: `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><workbookPr date1904="${uses1904 ? 1 : 0}"/><sheets>${each(
        (n) => `<sheet name="Sheet &amp; ${n}" sheetId="${n}" r:id="rId${n}"/>`,
      )}</sheets></workbook>`,
    },
    {
      name: 'xl/_rels/workbook.xml.rels',
      content: `${HEAD}<Relationships xmlns="${PACKAGE}">${each(
        (n) => `<Relationship Id="rId${n}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${n}.xml"/>`,
      )}<Relationship Id="rId99" Type="${OFFICE}/styles" Target="styles.xml"/></Relationships>`,
    },
    {
      name: 'xl/styles.xml',
      content: `${HEAD}<styleSheet xmlns="${MAIN}"><cellStyleXfs><xf numFmtId="0"/></cellStyleXfs><cellXfs><xf numFmtId="0" xfId="0"/><xf numFmtId="22" xfId="0" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    },
    ...sheets.map((rows, i) => ({
      name: `xl/worksheets/sheet${i + 1}.xml`,
      content: `${HEAD}<worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`,
    })),
  ];
}

export function textCell(place: string, text: string): string {
  return `<c r="${place}" t="inlineStr"><is><t>${text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</t></is></c>`;
}

export function numberCell(place: string, value: number | string, style = 0): string {
  return `<c r="${place}" s="${style}"><v>${value}</v></c>`;
}

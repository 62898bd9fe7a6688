import type { WorkbookLimits, WorkbookSheet } from './workbook';

export function parseWorkbook(bytes: Uint8Array, limits: WorkbookLimits): AsyncGenerator<WorkbookSheet>;

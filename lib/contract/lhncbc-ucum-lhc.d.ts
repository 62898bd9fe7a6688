declare module '@lhncbc/ucum-lhc' {
  type Conversion = { status: 'succeeded' | 'failed' | 'error'; toVal: number | null; msg: string[] };
  type UcumLhcUtils = { convertUnitTo(from: string, value: number, to: string): Conversion };
  const ucum: { UcumLhcUtils: { getInstance(): UcumLhcUtils } };
  export default ucum;
}

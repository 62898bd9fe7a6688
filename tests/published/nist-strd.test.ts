import { describe, expect, it } from 'vitest';
import { testChecks } from '../support/table-test';
import { MODELS, nistChecks, nonlinearSets } from './checks/nist';

describe('least squares reaches the certified values of the NIST StRD', () => {
  testChecks(nistChecks());

  it('of every nonlinear set', () =>
    expect(nonlinearSets.map((one) => one.name)).toEqual(Object.keys(MODELS)));
});
